import { SectionNav } from '@/app/_ui/section-nav'

export type MaterialsPart = 'alloys' | 'fillers' | 'heating'

export function MaterialsNav({ current }: { current: MaterialsPart }) {
  return (
    <SectionNav
      label="Materials"
      links={[
        { href: '/materials', label: 'Tube alloys', current: current === 'alloys' },
        { href: '/materials/fillers', label: 'Fillers', current: current === 'fillers' },
        { href: '/materials/heating', label: 'Heating', current: current === 'heating' },
      ]}
    />
  )
}
