import { Formula, over, raised } from './formula'
import { ModelPart } from './model-part'

/** From the section to the angle the tube springs back to. */
export function BendingParts() {
  return (
    <>
      <ModelPart id="section" title="The section" trust="exact" checks={['section']} unknown={[]}>
        <p>
          Area, second moment and the elastic and plastic moduli come from the outline: straight sides and
          round corners. Where no corner radius is given, extruded aluminium has sharp corners and cold-formed
          tube twice its wall. Heights are measured from the centroid, positive toward the outside of the
          bend. The tube does not turn with the bend: a rectangle’s height lies in the plane of every bend.
        </p>
      </ModelPart>
      <ModelPart
        id="curve"
        title="How the metal gives"
        trust="mechanics"
        checks={['curve']}
        unknown={[
          'The yield of the bar in your hands, unless its certificate is entered: typical values lie about 6 percent either way.',
          'That tube already bent or straightened yields earlier when it is bent back.',
        ]}
      >
        <p>
          Stress and strain follow one smooth curve, the same stretched as squeezed: an elastic part and a
          plastic part that passes 0.2 percent at the yield strength and the uniform strain at the tensile
          strength.
        </p>
        <Formula
          words="strain equals s over E plus 0.002 times s over F t y, to the power n"
          of={[
            'ε =',
            over('s', 'E'),
            '+ 0.002',
            raised(over('s', 'F_ty'), 'n'),
            ';',
            'n =',
            over('ln ( ε_u / 0.002 )', 'ln ( F_tu / F_ty )'),
          ]}
        />
        <p>
          Typical strengths are used, never the least a standard allows: weaker values would promise too
          little springback.
        </p>
      </ModelPart>
      <ModelPart
        id="moment"
        title="Strain and moment"
        trust="mechanics"
        checks={['moment']}
        unknown={[
          'Friction between strap and tube: 0.15 is a guess until a bend is measured.',
          'How fast you press: a fusible alloy is soft when bent slowly and brittle when bent fast.',
        ]}
      >
        <p>
          Bent to a centreline radius R, each fibre is strained by its distance from the neutral axis. A strap
          on the outside carries a pull T by friction, so that the tube carries the same push: the neutral
          axis moves outward, the outside stretches less and the inside is squeezed more.
        </p>
        <Formula
          words="strain at y equals y minus y n over R plus y n; the sum of stress over the area equals minus T; T is the lesser of mu N and the strap's yield force"
          of={[
            'ε ( y ) =',
            over('y − y_n', 'R + y_n'),
            ';',
            '∫ s dA = − T',
            ';',
            'T = min ( μ_s N , A_s F_ys )',
          ]}
        />
        <p>
          The moment to hold it there is what tube, filler and strap carry, and the strap’s pull on its lever.
          The filler slides in an oiled bore and bends about its own centroid; sand carries nothing.
        </p>
        <Formula
          words="M ext equals M tube plus M filler plus M strap plus T times half the height plus half the strap"
          of={['M_ext = M_tube + M_filler + M_strap + T (', over('h', '2'), '+', over('t_s', '2'), ')']}
        />
      </ModelPart>
      <ModelPart
        id="press"
        title="The press: force and travel"
        trust="mechanics"
        checks={['press']}
        unknown={[
          'The friction at your supports; 0.15 unless you enter another.',
          'Against large-deflection statics the force is within 4 percent, up to 14 high past a right angle with long arms.',
        ]}
      >
        <p>
          The tube lies on two rounded noses a span L apart and wraps on the die in the middle by an angle φ
          each side. What is left free on each side is the lever s; shorter levers take more force.
        </p>
        <Formula
          words="s equals half L minus R plus d times sine phi, over cosine phi"
          of={['s =', over(['L / 2 − ( R + d ) sin φ'], 'cos φ'), ';', 'd =', over('h', '2'), '+ t_s + r_p']}
        />
        <Formula
          words="N equals M ext over s plus or minus mu a; F equals 2 N times cosine phi plus or minus mu sine phi"
          of={['N =', over('M_ext', 's ± μ a'), ';', 'F = 2 N ( cos φ ± μ sin φ )']}
        />
        <p>
          The greatest force over the whole stroke is shown, not the one at the end: with a long span it comes
          earlier. Force over the share of the capacity set for the shop, or a lever shorter than the tube is
          high, is refused, and the span that would work is named.
        </p>
      </ModelPart>
      <ModelPart
        id="springback"
        title="Springback, in two releases"
        trust="mechanics"
        checks={['springback', 'spread']}
        unknown={[
          'How much your alloy creeps: packed tube left overnight moves from the angle at the press toward the final one.',
          'Each free arm is within 0.25 degrees of large-deflection statics; a test piece as long as the real one settles it.',
        ]}
      >
        <p>
          Released, the tube unbends elastically. While the filler is in, it holds part of that back, and may
          itself yield the other way; the rest comes when it is melted out. Whoever reads a protractor at the
          press is told both angles.
        </p>
        <Formula
          words="change of curvature equals c times M tube over E I; wanted curvature equals loaded curvature less that"
          of={['Δκ = c', over('M_tube', 'E I'), ';', 'κ_f = κ_L − Δκ ( κ_L )']}
        />
        <Formula
          words="at the press: M tube less E I x plus M filler less twice M f of half x equals nothing"
          of={['M_tube − E I x + M_filler − 2 M_f ( x / 2 ) = 0', ';', 'Δκ_1 = c x']}
        />
        <p>
          The free arms bend too: from the die’s edge to the support the moment falls to nothing, and the part
          near the die yields. What a protractor reads on the straight ends is the arc and both arms, so the
          arc is made short by what the arms will keep. The factor c is 1 until your own bends say otherwise.
        </p>
        <p>
          The range shown comes from the spread of strength, wall, friction and die radius, each moved by
          itself and added as squares; trial pieces narrow it.
        </p>
      </ModelPart>
    </>
  )
}
