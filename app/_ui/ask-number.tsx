'use client'

import { type ReactNode, useId, useState } from 'react'
import { Mark } from './marks'
import { Quantity } from './unit-value'

/** A number as it is shown, and what it is called. */
export interface AskedNumber {
  name: string
  value: string
  unit?: string
}

/** Where a number came from, as plain data. */
export interface NumberChain extends AskedNumber {
  formula?: string
  inputs?: readonly { name: string; value: string; unit?: string; from?: string; href?: string }[]
  source?: string
  trust?: 'exact' | 'mechanics' | 'screening' | 'measured' | 'entered'
  note?: ReactNode
}

const trustText = {
  exact: 'exact: geometry, statics or arithmetic',
  mechanics: 'mechanics: good to about ten percent with certified material values',
  screening: 'screening: says which way it goes and roughly how far; a trial piece decides',
  measured: 'measured at the bench',
  entered: 'entered by the shop',
} as const

/**
 * A number that can be asked where it came from. It opens a card, so it must not stand inside a <p>. Cards are made when
 * they are asked for: a page shows dozens of numbers, and few of them are ever asked.
 */
export function AskNumber({
  of,
  chain,
  children,
}: {
  of: AskedNumber
  chain: () => NumberChain
  children?: ReactNode
}) {
  const id = useId()
  const [asked, setAsked] = useState(false)
  return (
    <span className="ask">
      <button
        type="button"
        className="ask-button"
        popoverTarget={id}
        aria-haspopup="dialog"
        onClick={() => setAsked(true)}
      >
        {children ?? <Quantity value={of.value} unit={of.unit} />}
        <span className="visually-hidden">, where {of.name} comes from</span>
      </button>
      <div
        className="float ask-card"
        id={id}
        popover="auto"
        role="dialog"
        aria-label={`Where ${of.name} comes from`}
        // Asked before this script had loaded: the browser has opened the card by itself.
        ref={(card) => {
          if (!asked && card?.matches(':popover-open')) setAsked(true)
        }}
      >
        {asked && <ChainCard chain={chain()} id={id} />}
      </div>
    </span>
  )
}

function ChainCard({ chain, id }: { chain: NumberChain; id: string }) {
  return (
    <>
      <div className="float-head">
        <div>
          <div className="muted small">{chain.name}</div>
          <div className="strong">
            <Quantity value={chain.value} unit={chain.unit} />
          </div>
        </div>
        <button
          type="button"
          className="button button-quiet"
          popoverTarget={id}
          popoverTargetAction="hide"
          aria-label="Close"
        >
          <Mark name="cross" />
        </button>
      </div>
      <div className="float-body">
        {chain.formula && <div className="chain-formula">{chain.formula}</div>}
        {chain.inputs && chain.inputs.length > 0 && (
          <dl className="facts">
            {chain.inputs.map((input) => [
              <dt key={`${input.name}-name`}>{input.name}</dt>,
              <dd key={input.name}>
                <Quantity value={input.value} unit={input.unit} />
                {input.from && (
                  <span className="muted small">
                    {' '}
                    {input.href ? <a href={input.href}>{input.from}</a> : input.from}
                  </span>
                )}
              </dd>,
            ])}
          </dl>
        )}
        {chain.source && (
          <div className="small">
            <span className="muted">Source: </span>
            {chain.source}
          </div>
        )}
        {chain.trust && (
          <div className="small">
            <span className="muted">How far to trust it: </span>
            {trustText[chain.trust]}
          </div>
        )}
        {chain.note && <div className="small">{chain.note}</div>}
      </div>
    </>
  )
}
