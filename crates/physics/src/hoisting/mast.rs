//! What mast and derrick carry: hook load with both lines, leg by leg, and the stands on the floor.

use super::tackle::{BlockMotion, Tackle};
use crate::{Formula, FormulaRecord, Recorder, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    DerrickLoad::RECORD,
    DerrickLoadStanding::RECORD,
    DerrickLoadByEfficiency::RECORD,
    DeadLineLegLoad::RECORD,
    DrawworksLegLoad::RECORD,
    EquivalentDerrickLoad::RECORD,
    DerrickEfficiency::RECORD,
    SetbackLoad::RECORD,
    StandsRacked::RECORD,
    FingerboardLoad::RECORD,
];

formula! {
    /// Load on the crown: hook load with fast and dead line.
    pub struct DerrickLoad;
    slug "derrick-load";
    equation "F = W + F_f + F_d";
    law Homogeneous;
    source "statics";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// fast-line pull
        fast_line "F_f" Force must NON_NEGATIVE;
        /// dead-line pull
        dead_line "F_d" Force must NON_NEGATIVE;
    }
    /// derrick load
    gives "F" Force;
    value |f| f.hook_load + f.fast_line + f.dead_line
}

formula! {
    /// Load on the crown while the block stands, without friction.
    pub struct DerrickLoadStanding;
    slug "derrick-load-standing";
    equation "F = W (N + 2)/N";
    law Homogeneous;
    source "statics";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
    }
    /// derrick load
    gives "F" Force;
    value |f| f.hook_load * (f.lines + 2.0) / f.lines
}

formula! {
    /// Load on the crown while hoisting, as textbooks reckon it: moving fast line, standing dead line.
    ///
    /// 1 to 2 % above the consistent sum, in which the dead line is slacker while the block rises.
    pub struct DerrickLoadByEfficiency;
    slug "derrick-load-by-efficiency";
    equation "F = W (1 + E + E N)/(E N)";
    law Homogeneous;
    source "Bourgoyne et al., Applied Drilling Engineering, SPE 1986, chapter 1";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
        /// efficiency of block and tackle
        efficiency "E" Fraction must between(1e-3, 1.0) valid between(0.6, 1.0);
    }
    /// derrick load
    gives "F" Force;
    value |f| f.hook_load * (1.0 + f.efficiency + f.efficiency * f.lines) / (f.efficiency * f.lines)
}

formula! {
    /// Load on the leg to which the dead line is tied.
    pub struct DeadLineLegLoad;
    slug "dead-line-leg-load";
    equation "F = (W + W_c)/4 + F_d";
    law Homogeneous;
    source "statics of a four-leg derrick; Bourgoyne et al., Applied Drilling Engineering, SPE 1986, chapter 1";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// weight of the crown block
        crown_weight "W_c" Force must NON_NEGATIVE;
        /// dead-line pull
        dead_line "F_d" Force must NON_NEGATIVE;
    }
    /// load on the leg
    gives "F" Force;
    value |f| 0.25 * (f.hook_load + f.crown_weight) + f.dead_line
}

formula! {
    /// Load on each of the two legs on the side of the drawworks, which share the fast line.
    pub struct DrawworksLegLoad;
    slug "drawworks-leg-load";
    equation "F = (W + W_c)/4 + F_f/2";
    law Homogeneous;
    source "statics of a four-leg derrick; Bourgoyne et al., Applied Drilling Engineering, SPE 1986, chapter 1";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// weight of the crown block
        crown_weight "W_c" Force must NON_NEGATIVE;
        /// fast-line pull
        fast_line "F_f" Force must NON_NEGATIVE;
    }
    /// load on the leg
    gives "F" Force;
    value |f| 0.25 * (f.hook_load + f.crown_weight) + 0.5 * f.fast_line
}

formula! {
    /// Four times the load on the worst leg, the dead line tied to one leg, without friction.
    pub struct EquivalentDerrickLoad;
    slug "equivalent-derrick-load";
    equation "F_e = W (N + 4)/N";
    law Homogeneous;
    source "Bourgoyne et al., Applied Drilling Engineering, SPE 1986, chapter 1";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
    }
    /// equivalent derrick load
    gives "F_e" Force;
    value |f| f.hook_load * (f.lines + 4.0) / f.lines
}

formula! {
    /// How evenly the legs are used: derrick load over four times the worst leg.
    pub struct DerrickEfficiency;
    slug "derrick-efficiency";
    equation "E_d = F/F_e";
    law Homogeneous;
    source "Bourgoyne et al., Applied Drilling Engineering, SPE 1986, chapter 1";
    given {
        /// derrick load
        derrick_load "F" Force must NON_NEGATIVE;
        /// equivalent derrick load
        equivalent_load "F_e" Force must at_least(1e-3);
    }
    /// derrick efficiency factor
    gives "E_d" Fraction;
    value |f| f.derrick_load / f.equivalent_load
}

formula! {
    /// Weight of pipe that stands on the floor: in air, whatever mud it came from.
    pub struct SetbackLoad;
    slug "setback-load";
    equation "F = L m g";
    law Homogeneous;
    source "statics";
    given {
        /// length of the pipe that is racked
        length "L" Depth must NON_NEGATIVE;
        /// weight per length in air, joints included
        linear_mass "m" LinearMass must NON_NEGATIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// setback load
    gives "F" Force;
    value |f| f.length * f.linear_mass * f.gravity
}

formula! {
    /// Number of stands that a length of pipe makes, the last one perhaps short.
    pub struct StandsRacked;
    slug "stands-racked";
    equation "n = ⌈L/l⌉";
    law Homogeneous;
    source "counting";
    given {
        /// length of the pipe that is racked
        length "L" Depth must NON_NEGATIVE;
        /// length of a stand
        stand "l" Depth must at_least(1e-3) valid between(8.0, 45.0);
    }
    /// number of stands
    gives "n" Count;
    // A millionth of a stand more is rounding, not another stand.
    value |f| (f.length / f.stand - 1e-6).max(0.0).ceil()
}

formula! {
    /// Level push of leaning stands on the fingerboard, without wind.
    pub struct FingerboardLoad;
    slug "fingerboard-load";
    equation "H = F/2 tan φ";
    law Homogeneous;
    source "statics of a uniform bar leaning on a smooth edge near its top";
    given {
        /// weight of the stands
        setback_load "F" Force must NON_NEGATIVE;
        /// lean from the vertical
        lean "φ" Angle must between(0.0, 1.5) valid between(0.0, 0.15);
    }
    /// level push
    gives "H" Force;
    value |f| 0.5 * f.setback_load * f.lean.tan()
}

impl Tackle {
    /// Load on the crown: hook load with both lines. [N]
    pub fn derrick_load<R: Recorder>(&self, hook_load: f64, motion: BlockMotion, rec: &mut R) -> f64 {
        let fast_line = self.fast_line(hook_load, motion, rec);
        let dead_line = self.dead_line(hook_load, motion, rec);
        rec.take(DerrickLoad { hook_load, fast_line, dead_line })
    }

    /// Load on the worst leg of a four-leg derrick, the dead line tied to one leg. [N]
    pub fn worst_leg_load<R: Recorder>(&self, hook_load: f64, motion: BlockMotion, crown_weight: f64, rec: &mut R) -> f64 {
        let fast_line = self.fast_line(hook_load, motion, rec);
        let dead_line = self.dead_line(hook_load, motion, rec);
        let dead_side = rec.take(DeadLineLegLoad { hook_load, crown_weight, dead_line });
        let drum_side = rec.take(DrawworksLegLoad { hook_load, crown_weight, fast_line });
        dead_side.max(drum_side)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    /// The four legs together carry the derrick load: one with the dead line, two sharing the fast line, one free.
    #[test]
    fn law_legs_carry_the_derrick_load() {
        for motion in [BlockMotion::Hoisting, BlockMotion::Lowering, BlockMotion::Standing] {
            let tackle = Tackle { lines: 10.0, sheave_factor: 1.04 };
            let (hook_load, crown_weight) = (1.6e6, 9e4);
            let fast_line = tackle.fast_line(hook_load, motion, &mut Off);
            let dead_line = tackle.dead_line(hook_load, motion, &mut Off);
            let dead_side = DeadLineLegLoad { hook_load, crown_weight, dead_line }.value();
            let drum_side = DrawworksLegLoad { hook_load, crown_weight, fast_line }.value();
            let all = dead_side + 2.0 * drum_side + 0.25 * (hook_load + crown_weight);
            assert!((all / (tackle.derrick_load(hook_load, motion, &mut Off) + crown_weight) - 1.0).abs() < 1e-12);
            let worst = tackle.worst_leg_load(hook_load, motion, crown_weight, &mut Off);
            assert!(worst >= dead_side && worst >= drum_side);
        }
        let still = Tackle { lines: 8.0, sheave_factor: 1.04 };
        let equivalent = EquivalentDerrickLoad { hook_load: 1e6, lines: 8.0 }.value();
        assert!((4.0 * still.worst_leg_load(1e6, BlockMotion::Standing, 0.0, &mut Off) / equivalent - 1.0).abs() < 1e-12);
    }
}
