//! Block and tackle: what the lines carry while the block rises, falls or stands, and what the mast carries with them.
//!
//! N lines under the travelling block; every turning sheave adds the tension ratio k. The fast line goes to the drum,
//! the dead line leaves the dead sheave, which does not turn. The hook load is what hangs on the lines: string, hook,
//! top drive and travelling block.

use crate::{Formula, FormulaRecord, Recorder, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    FastLineHoisting::RECORD,
    DeadLineHoisting::RECORD,
    FastLineLowering::RECORD,
    DeadLineLowering::RECORD,
    LineStanding::RECORD,
    TackleEfficiency::RECORD,
    FastLineByEfficiency::RECORD,
    HookLoadHoisting::RECORD,
    HookLoadLowering::RECORD,
    LineDesignFactor::RECORD,
    AllowedLinePull::RECORD,
    HookLoadByFastLine::RECORD,
];

/// Tension ratio at a sheave on roller bearings. [-]
///
/// *Source*: API RP 9B, 14th ed. 2015; 1.09 for plain bearings (from memory), 1.02 to 1.06 in the field (common practice).
pub const SHEAVE_FACTOR: f64 = 1.04;

/// (kⁿ - 1)/(k - 1), which is 1 + k + k² + ... of n terms; n where the sheaves turn freely.
fn sum_of_ratios(sheave_factor: f64, lines: f64) -> f64 {
    let excess = sheave_factor - 1.0;
    if excess < 1e-12 { lines } else { (lines * excess.ln_1p()).exp_m1() / excess }
}

formula! {
    /// Pull on the fast line while the block rises.
    pub struct FastLineHoisting;
    slug "fast-line-hoisting";
    equation "F_f = W (k - 1) k^N/(k^N - 1)";
    law Homogeneous;
    source "API RP 9B, 14th ed. 2015, addendum 1, figure 1 case A";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
        /// tension ratio at a turning sheave
        sheave_factor "k" Ratio must between(1.0, 2.0) valid between(1.0, 1.12) default SHEAVE_FACTOR;
    }
    /// fast-line pull
    gives "F_f" Force;
    value |f| f.hook_load * f.sheave_factor.powf(f.lines) / sum_of_ratios(f.sheave_factor, f.lines)
}

formula! {
    /// Pull on the dead line while the block rises.
    pub struct DeadLineHoisting;
    slug "dead-line-hoisting";
    equation "F_d = W (k - 1)/(k^N - 1)";
    law Homogeneous;
    source "API RP 9B, 14th ed. 2015; the dead sheave does not turn";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
        /// tension ratio at a turning sheave
        sheave_factor "k" Ratio must between(1.0, 2.0) valid between(1.0, 1.12) default SHEAVE_FACTOR;
    }
    /// dead-line pull
    gives "F_d" Force;
    value |f| f.hook_load / sum_of_ratios(f.sheave_factor, f.lines)
}

formula! {
    /// Pull on the fast line while the block falls: friction now carries a part of the load.
    pub struct FastLineLowering;
    slug "fast-line-lowering";
    equation "F_f = W (k - 1)/[k (k^N - 1)]";
    law Homogeneous;
    source "derived as API RP 9B does for hoisting, with the friction reversed";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
        /// tension ratio at a turning sheave
        sheave_factor "k" Ratio must between(1.0, 2.0) valid between(1.0, 1.12) default SHEAVE_FACTOR;
    }
    /// fast-line pull
    gives "F_f" Force;
    value |f| f.hook_load / (f.sheave_factor * sum_of_ratios(f.sheave_factor, f.lines))
}

formula! {
    /// Pull on the dead line while the block falls.
    pub struct DeadLineLowering;
    slug "dead-line-lowering";
    equation "F_d = W (k - 1) k^(N - 1)/(k^N - 1)";
    law Homogeneous;
    source "derived as API RP 9B does for hoisting, with the friction reversed";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
        /// tension ratio at a turning sheave
        sheave_factor "k" Ratio must between(1.0, 2.0) valid between(1.0, 1.12) default SHEAVE_FACTOR;
    }
    /// dead-line pull
    gives "F_d" Force;
    value |f| f.hook_load * f.sheave_factor.powf(f.lines - 1.0) / sum_of_ratios(f.sheave_factor, f.lines)
}

formula! {
    /// Pull on every line while the block stands, as it is agreed: friction leaves it between the moving values.
    pub struct LineStanding;
    slug "line-standing";
    equation "F = W/N";
    law Homogeneous;
    source "common practice";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
    }
    /// pull on each line
    gives "F" Force;
    value |f| f.hook_load / f.lines
}

formula! {
    /// Efficiency of block and tackle: hook load over N fast-line pulls.
    ///
    /// The textbook table 0.874, 0.841, 0.810, 0.770, 0.740 for 6 to 14 lines leaves this formula at 12 and 14 lines.
    pub struct TackleEfficiency;
    slug "tackle-efficiency";
    equation "E = (k^N - 1)/[k^N N (k - 1)]";
    law Homogeneous;
    source "API RP 9B, 14th ed. 2015, figure 1 case A";
    given {
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
        /// tension ratio at a turning sheave
        sheave_factor "k" Ratio must between(1.0, 2.0) valid between(1.0, 1.12) default SHEAVE_FACTOR;
    }
    /// efficiency
    gives "E" Fraction;
    value |f| sum_of_ratios(f.sheave_factor, f.lines) / (f.lines * f.sheave_factor.powf(f.lines))
}

formula! {
    /// Pull on the fast line from an efficiency of block and tackle that is given.
    pub struct FastLineByEfficiency;
    slug "fast-line-by-efficiency";
    equation "F_f = W/(E N)";
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
    /// fast-line pull
    gives "F_f" Force;
    value |f| f.hook_load / (f.efficiency * f.lines)
}

formula! {
    /// Hook load behind a dead-line reading while the block rises; a gauge scaled by N reads 13 to 17 % less.
    pub struct HookLoadHoisting;
    slug "hook-load-from-dead-line-hoisting";
    equation "W = F_d (k^N - 1)/(k - 1)";
    law Homogeneous;
    source "inverse of the dead-line pull while hoisting";
    given {
        /// dead-line pull
        dead_line "F_d" Force must NON_NEGATIVE;
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
        /// tension ratio at a turning sheave
        sheave_factor "k" Ratio must between(1.0, 2.0) valid between(1.0, 1.12) default SHEAVE_FACTOR;
    }
    /// hook load
    gives "W" Force;
    value |f| f.dead_line * sum_of_ratios(f.sheave_factor, f.lines)
}

formula! {
    /// Hook load behind a dead-line reading while the block falls; a gauge scaled by N reads 14 to 19 % more.
    pub struct HookLoadLowering;
    slug "hook-load-from-dead-line-lowering";
    equation "W = F_d (k^N - 1)/[(k - 1) k^(N - 1)]";
    law Homogeneous;
    source "inverse of the dead-line pull while lowering";
    given {
        /// dead-line pull
        dead_line "F_d" Force must NON_NEGATIVE;
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
        /// tension ratio at a turning sheave
        sheave_factor "k" Ratio must between(1.0, 2.0) valid between(1.0, 1.12) default SHEAVE_FACTOR;
    }
    /// hook load
    gives "W" Force;
    value |f| f.dead_line * sum_of_ratios(f.sheave_factor, f.lines) / f.sheave_factor.powf(f.lines - 1.0)
}

formula! {
    /// Design factor of the drilling line: its strength over the fast-line pull.
    ///
    /// At least 3 for drilling and ordinary hoisting, 2 for setting casing and for pulling on stuck pipe
    /// (API RP 9B, from memory).
    pub struct LineDesignFactor;
    slug "line-design-factor";
    equation "n = S/F_f";
    law Homogeneous;
    source "API RP 9B, 14th ed. 2015, addendum 1, 2:3.3.4";
    given {
        /// nominal strength of the line, from its certificate
        line_strength "S" Force must NON_NEGATIVE;
        /// fast-line pull
        fast_line "F_f" Force must at_least(1e-3);
    }
    /// design factor
    gives "n" Ratio;
    value |f| f.line_strength / f.fast_line
}

formula! {
    /// Fast-line pull that leaves the wanted design factor of the drilling line.
    pub struct AllowedLinePull;
    slug "allowed-line-pull";
    equation "F_f = S/n";
    law Homogeneous;
    source "API RP 9B, 14th ed. 2015; factors of 3 and 2 from memory";
    given {
        /// nominal strength of the line, from its certificate
        line_strength "S" Force must NON_NEGATIVE;
        /// smallest design factor
        design_factor "n" Ratio must ONE_OR_MORE;
    }
    /// fast-line pull allowed
    gives "F_f" Force;
    value |f| f.line_strength / f.design_factor
}

formula! {
    /// Hook load that a fast-line pull lifts.
    pub struct HookLoadByFastLine;
    slug "hook-load-by-fast-line";
    equation "W = F_f N E";
    law Homogeneous;
    source "Bourgoyne et al., Applied Drilling Engineering, SPE 1986, chapter 1";
    given {
        /// fast-line pull
        fast_line "F_f" Force must NON_NEGATIVE;
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
        /// efficiency of block and tackle
        efficiency "E" Fraction must EFFICIENCY valid between(0.6, 1.0);
    }
    /// hook load
    gives "W" Force;
    value |f| f.fast_line * f.lines * f.efficiency
}

/// What the block does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BlockMotion {
    /// Rises.
    Hoisting,
    /// Falls.
    Lowering,
    /// Stands.
    Standing,
}

/// How the line is strung.
#[derive(Clone, Copy, Debug)]
pub struct Tackle {
    /// Lines strung.
    pub lines: f64,
    /// Tension ratio at a turning sheave. [-]
    pub sheave_factor: f64,
}

impl Tackle {
    /// Pull on the fast line. [N]
    pub fn fast_line<R: Recorder>(&self, hook_load: f64, motion: BlockMotion, rec: &mut R) -> f64 {
        let &Tackle { lines, sheave_factor } = self;
        match motion {
            BlockMotion::Hoisting => rec.take(FastLineHoisting { hook_load, lines, sheave_factor }),
            BlockMotion::Lowering => rec.take(FastLineLowering { hook_load, lines, sheave_factor }),
            BlockMotion::Standing => rec.take(LineStanding { hook_load, lines }),
        }
    }

    /// Pull on the dead line. [N]
    pub fn dead_line<R: Recorder>(&self, hook_load: f64, motion: BlockMotion, rec: &mut R) -> f64 {
        let &Tackle { lines, sheave_factor } = self;
        match motion {
            BlockMotion::Hoisting => rec.take(DeadLineHoisting { hook_load, lines, sheave_factor }),
            BlockMotion::Lowering => rec.take(DeadLineLowering { hook_load, lines, sheave_factor }),
            BlockMotion::Standing => rec.take(LineStanding { hook_load, lines }),
        }
    }

    /// Efficiency of block and tackle. [-]
    pub fn efficiency<R: Recorder>(&self, rec: &mut R) -> f64 {
        rec.take(TackleEfficiency { lines: self.lines, sheave_factor: self.sheave_factor })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    /// Tension handed on from sheave to sheave: the lines together carry the hook load, whichever way they move.
    #[test]
    fn law_lines_carry_the_hook_load() {
        let hook_load = 1.5e6;
        for (lines, sheave_factor) in [(2, 1.04), (8, 1.0), (8, 1.04), (10, 1.09), (12, 1.02), (14, 1.04)] {
            let tackle = Tackle { lines: f64::from(lines), sheave_factor };
            // From the dead line to the last line under the block; then over the fast sheave to the drum.
            for (motion, ratio) in [(BlockMotion::Hoisting, sheave_factor), (BlockMotion::Lowering, 1.0 / sheave_factor)] {
                let mut tension = tackle.dead_line(hook_load, motion, &mut Off);
                let mut carried = 0.0;
                for _ in 0..lines {
                    carried += tension;
                    tension *= ratio;
                }
                assert!((carried / hook_load - 1.0).abs() < 1e-12);
                let fast = tackle.fast_line(hook_load, motion, &mut Off);
                assert!((fast / tension - 1.0).abs() < 1e-12, "{fast} {tension}");
            }
        }
    }

    #[test]
    fn law_dead_line_readings_invert() {
        let (lines, sheave_factor) = (10.0, 1.04);
        let tackle = Tackle { lines, sheave_factor };
        let up = tackle.dead_line(2e6, BlockMotion::Hoisting, &mut Off);
        let down = tackle.dead_line(2e6, BlockMotion::Lowering, &mut Off);
        assert!((HookLoadHoisting { dead_line: up, lines, sheave_factor }.value() - 2e6).abs() < 1e-6);
        assert!((HookLoadLowering { dead_line: down, lines, sheave_factor }.value() - 2e6).abs() < 1e-6);
    }

    /// Efficiency is what the fast line says it is, and the standing pull lies between the moving ones.
    #[test]
    fn law_efficiency_and_standing_pull() {
        let tackle = Tackle { lines: 12.0, sheave_factor: 1.04 };
        let fast = |motion| tackle.fast_line(1e6, motion, &mut Off);
        assert!((tackle.efficiency(&mut Off) * 12.0 * fast(BlockMotion::Hoisting) / 1e6 - 1.0).abs() < 1e-12);
        assert!(fast(BlockMotion::Lowering) < fast(BlockMotion::Standing));
        assert!(fast(BlockMotion::Standing) < fast(BlockMotion::Hoisting));
    }
}
