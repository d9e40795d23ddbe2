-- What left the shop or is counted on is kept as it was written: releases, the filler ledger, rates once in force.
-- keep_as_written() lets them go while the demo shop is removed, and only then.
create trigger release_kept before update or delete on "Release" for each row execute function keep_as_written();
create trigger release_piece_kept before update or delete on "ReleasePiece" for each row execute function keep_as_written();
create trigger filler_entry_kept before update or delete on "FillerEntry" for each row execute function keep_as_written();
create trigger rate_sheet_kept before update or delete on "RateSheet" for each row execute function keep_as_written();

-- A quote as it was sent never changes; its link may be made anew, read, withdrawn and answered, and answered once.
create function keep_sent_quote() returns trigger language plpgsql as $$
begin
  if removing_demo() then
    return case tg_op when 'DELETE' then old else new end;
  end if;
  if tg_op = 'DELETE' then
    raise exception 'a quote that was sent is kept' using errcode = 'restrict_violation';
  end if;
  if (new."quoteId", new.issue, new.snapshot, new."sentAt") is distinct from (old."quoteId", old.issue, old.snapshot, old."sentAt") then
    raise exception 'a quote that was sent is never changed' using errcode = 'restrict_violation';
  end if;
  if old.answer is not null and (new.answer, new."answeredAt", new."answeredBy", new."answerNote")
    is distinct from (old.answer, old."answeredAt", old."answeredBy", old."answerNote") then
    raise exception 'a quote is answered once' using errcode = 'restrict_violation';
  end if;
  return new;
end $$;
create trigger sent_quote_kept before update or delete on "QuoteIssue" for each row execute function keep_sent_quote();
