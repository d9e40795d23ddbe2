-- What a quote or a decision was made from is kept as it was written: a change is a next version, another mind a next decision.
create function keep_as_written() returns trigger language plpgsql as $$
begin
  if removing_demo() then
    return case tg_op when 'DELETE' then old else new end;
  end if;
  raise exception '% is kept as it was written', tg_table_name using errcode = 'restrict_violation';
end $$;
create trigger estimate_kept before update or delete on "Estimate" for each row execute function keep_as_written();
create trigger decision_kept before update or delete on "Decision" for each row execute function keep_as_written();
