import { Formula, over } from './formula'
import { ModelPart } from './model-part'

/** What becomes of the section, the metal's state and the part as a whole. */
export function ShapeParts() {
  return (
    <>
      <ModelPart
        id="wall"
        title="Wall and width"
        trust="screening"
        checks={['wall']}
        unknown={[
          'Whether your filler holds the section or lets it narrow: both ends are shown, low and high.',
        ]}
      >
        <p>
          A fibre that is stretched gets narrower and thinner. If nothing holds the section, it follows
          Poisson’s ratio, one third while elastic and near one half once plastic; if the filler holds the
          girth, the wall alone gives. The two are the low and the high; expected is held for round tube and
          free for rectangular.
        </p>
        <Formula
          words="width equals b times one less nu effective times strain plus nu times change of curvature times y; held wall equals t over one plus strain"
          of={['w ( y ) = b ( 1 − ν_eff ε + ν Δκ y )', ';', 't_out =', over('t', '1 + ε_out')]}
        />
      </ModelPart>
      <ModelPart
        id="flattening"
        title="Flattening"
        trust="screening"
        checks={['flattening']}
        unknown={[
          'The moment at which a thin flange snaps inward: the sag grows smoothly in the model and suddenly in the press.',
          'How well you packed the sand.',
          'Side walls under the ram carry no resistance factor: the numbers are the steel code’s bare strengths.',
        ]}
      >
        <p>
          A bent flange is pulled inward by its own stress. Between its webs it sags as a plate strip with the
          stiffness the metal has left at that strain; a round tube goes oval. Sag under 0.5 percent of the
          height holds, under 2 marks, under 5 flattens, above that it collapses, unless the part has its own
          tolerance.
        </p>
        <Formula
          words="sag equals p b to the fourth over D p, times 5 less 4 b over b plus h, over 384; p equals s t over R face"
          of={[
            'u =',
            over(['p b_c^4'], 'D_p'),
            '·',
            over(['5 − 4 b_c / ( b_c + h_c )'], '384'),
            ';',
            'p =',
            over('s t', 'R_face'),
          ]}
        />
        <Formula
          words="ovality of round tube: u over r equals three quarters kappa squared r to the fourth over t squared"
          of={[over('u', 'r'), '=', over('3', '4'), '·', over('κ^2 r^4', 't^2')]}
        />
        <p>With a filler, the sag is no more than the filler gives: half its strain over the height.</p>
      </ModelPart>
      <ModelPart
        id="tearing"
        title="Will it tear"
        trust="screening"
        checks={['tearing']}
        unknown={[
          'The shares 0.7 bare and 0.9 with a strap are common practice, no source.',
          'Weld seams, scratches and sheared ends, where tears begin.',
        ]}
      >
        <Formula
          words="use equals outer strain over a share of the elongation at break"
          of={['use =', over('ε_out', 'f A_50'), ';', 'f = 0.7', ',', '0.9']}
        />
        <p>Above 1 it is expected to tear, and the least radius that would not is named.</p>
      </ModelPart>
      <ModelPart
        id="temper"
        title="Temper and heat"
        trust="table"
        checks={['temper']}
        unknown={[
          'The reheat times are from memory: provisional limits, not to be stretched.',
          'How hot your torch or pot really was. A hardness test on a piece that went along settles it.',
        ]}
      >
        <p>
          Each way of making the part ends in a temper with its strengths, and calls for heat or none. Every
          heating uses a share of the time a temperature allows; the shares add up, and above 1 the strength
          is no longer promised.
        </p>
        <Formula
          words="exposure used equals the sum of time over time allowed at that temperature"
          of={['exposure = ∑', over('t_i', 't_allowed')]}
        />
      </ModelPart>
      <ModelPart
        id="geometry"
        title="Lengths and points"
        trust="exact"
        checks={['geometry', 'templates']}
        unknown={['The springback of a part so limber that it hangs by its own weight while you measure it.']}
      >
        <p>
          The bend table and the points of the drawing turn into each other. The tube is cut as long as its
          straights and arcs, and what a strap squeezes out of each wrapped arc; then grips, trim and kerf.
        </p>
        <Formula
          words="length equals the sum of straights plus R theta plus y n times the wrapped angle"
          of={['ℓ = ∑ ( straight + R θ + y_n θ_wrapped )']}
        />
      </ModelPart>
      <ModelPart
        id="learning"
        title="What your own bends teach"
        trust="measured"
        checks={['learning']}
        unknown={[
          'Anything of a material, section and method you have not bent: there it leans on the material’s others, then on 1.',
        ]}
      >
        <p>
          The springback factor starts at 1 with a spread of 0.15. Each measured bend moves it by as much as
          its gauge can be trusted; sections of one material pull each other along.
        </p>
        <Formula
          words="c equals loaded less measured final over loaded less final of the model"
          of={['c =', over('θ_loaded − θ_measured', 'θ_loaded − θ_model')]}
        />
      </ModelPart>
      <ModelPart
        id="materials"
        title="Materials and fillers"
        trust="table"
        checks={['materials']}
        unknown={['What is in a pot that was mixed from several: cast a slug and weigh it.']}
      >
        <p>
          Each value of each alloy and filler says where it is from and how sure that is. A lot’s certificate
          takes over from the table for the jobs cut from it. A filler’s density is worked out from its
          elements. An alloy or a filler that is in no table is entered with its own source; of a filler, what
          it is made of decides the cautions, where it melts decides the heat it costs the tube.
        </p>
        <Formula
          words="density equals 100 over the sum of shares over densities"
          of={['ρ =', over('100', ['∑ ( w_i / ρ_i )'])]}
        />
      </ModelPart>
      <ModelPart
        id="cost"
        title="Cost and time"
        trust="measured"
        checks={['cost']}
        unknown={[
          'How long your shop takes, until minutes are logged: the first times are common practice, no source.',
          'What a supplier will charge, until he answers.',
        ]}
      >
        <p>
          Each operation has three times, low, likely and high; later pieces follow the learning curve where
          hands set the pace. Starts cover the pieces that will be spoilt. Amounts are whole cents and rounded
          once.
        </p>
        <Formula
          words="minutes of piece N equal minutes of the first times N to the power log r over log 2"
          of={['t_N = t_1 · N^b', ';', 'b =', over('ln r', 'ln 2')]}
        />
      </ModelPart>
      <ModelPart
        id="shop"
        title="Judging, cutting, units"
        trust="exact"
        checks={['judging', 'cutting', 'units']}
        unknown={['A gauge that reads wrong: the doubt you enter for it is believed.']}
      >
        <p>
          A reading passes when it lies inside the tolerance by more than the gauge’s doubt, and fails when it
          lies outside by as much; between the two the honest word is “cannot say”. Cutting plans are solved
          to the proven least cost, or say that they are not proven.
        </p>
      </ModelPart>
    </>
  )
}
