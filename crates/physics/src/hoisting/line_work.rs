//! Work of the drilling line in ton-miles, which says when to slip and cut (API RP 9B).
//!
//! One ton-mile is a short ton moved a mile: 10,560,000 ft-lbf. These rules leave out friction in the hole, acceleration
//! and jarring: a sum of hook load times way from the rig's own readings is usually larger.

use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] =
    &[ExcessWeight::RECORD, RoundTripWork::RECORD, CasingWork::RECORD, WorkBetweenDepths::RECORD, CutLength::RECORD];

formula! {
    /// Weight in mud by which collars and tools exceed the same length of drill pipe.
    pub struct ExcessWeight;
    slug "excess-weight";
    equation "C = W_b - w L";
    law Homogeneous;
    source "API RP 9B";
    given {
        /// weight in mud of everything below the drill pipe
        assembly_weight "W_b" Force must NON_NEGATIVE;
        /// buoyed weight per length of drill pipe
        buoyed_weight "w" ForcePerLength must NON_NEGATIVE;
        /// length of everything below the drill pipe
        assembly_length "L" Depth must NON_NEGATIVE;
    }
    /// excess weight
    gives "C" Force;
    value |f| f.assembly_weight - f.buoyed_weight * f.assembly_length
}

formula! {
    /// Line work of a round trip: out of the hole and back, stand by stand.
    ///
    /// In field units `[D (L + D) w + 4 D (M + C/2)]/10,560,000` ton-miles from ft and lbf.
    pub struct RoundTripWork;
    slug "round-trip-line-work";
    equation "T = D (L + D) w + 4 D (M + C/2)";
    law Homogeneous;
    source "API RP 9B";
    given {
        /// measured depth of the trip
        depth "D" Depth must NON_NEGATIVE;
        /// length of a stand
        stand "L" Depth must NON_NEGATIVE;
        /// buoyed weight per length of drill pipe, joints included
        buoyed_weight "w" ForcePerLength must NON_NEGATIVE;
        /// weight of block, hook and top drive
        travelling_weight "M" Force must NON_NEGATIVE;
        /// excess weight of collars and tools
        excess_weight "C" Force must ANY;
    }
    /// line work
    gives "T" LineWork;
    value |f| f.depth * (f.stand + f.depth) * f.buoyed_weight + 4.0 * f.depth * (f.travelling_weight + 0.5 * f.excess_weight)
}

formula! {
    /// Line work of setting casing: half a round trip.
    ///
    /// A much-copied form forgets the 4 before the travelling weight and is far too low.
    pub struct CasingWork;
    slug "casing-line-work";
    equation "T = ½ [D (L + D) w + 4 D M]";
    law Homogeneous;
    source "API RP 9B";
    given {
        /// measured depth of the shoe
        depth "D" Depth must NON_NEGATIVE;
        /// length of a joint of casing
        joint "L" Depth must NON_NEGATIVE;
        /// buoyed weight per length of casing
        buoyed_weight "w" ForcePerLength must NON_NEGATIVE;
        /// weight of block, hook and top drive
        travelling_weight "M" Force must NON_NEGATIVE;
    }
    /// line work
    gives "T" LineWork;
    value |f| 0.5 * (f.depth * (f.joint + f.depth) * f.buoyed_weight + 4.0 * f.depth * f.travelling_weight)
}

formula! {
    /// Line work of drilling, coring or a short trip between two depths, from the round trips at both.
    ///
    /// Passes with a kelly: 2 drilled only, 3 with one reaming of each single, 4 with two; 2 for coring; 1 for a short
    /// trip. A top drive needs no pull-up for the kelly: 1 drilled only, 2 with one back-ream (cautious rounding).
    pub struct WorkBetweenDepths;
    slug "line-work-between-depths";
    equation "T = n (T₂ - T₁)";
    law Homogeneous;
    source "API RP 9B; top drive derived from the way of the block";
    given {
        /// passes
        passes "n" Ratio must NON_NEGATIVE valid between(0.5, 4.0);
        /// round trip from the deeper depth
        deeper "T₂" LineWork must NON_NEGATIVE;
        /// round trip from the shallower depth
        shallower "T₁" LineWork must NON_NEGATIVE;
    }
    /// line work
    gives "T" LineWork;
    value |f| f.passes * (f.deeper - f.shallower)
}

formula! {
    /// Length of line to cut for the work done since the last cut.
    ///
    /// Goals at a design factor of 5: 8, 12, 16, 20, 24 ton-miles a foot for line of 1 to 1 1/2 in. What the eye sees
    /// on the line goes before any count.
    pub struct CutLength;
    slug "cut-length";
    equation "L = T/G";
    law Homogeneous;
    source "API RP 9B";
    given {
        /// line work since the last cut
        line_work "T" LineWork must NON_NEGATIVE;
        /// goal of line work per length cut
        goal "G" WorkPerLength must at_least(1e-3);
    }
    /// length to cut
    gives "L" Depth;
    value |f| f.line_work / f.goal
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The rule of RP 9B is what stand after stand of load times way adds up to.
    #[test]
    fn law_round_trip_is_the_sum_over_stands() {
        let (stand, stands, w, m, c) = (28.0, 120, 250.0, 3.0e5, 9.0e4);
        let depth = stand * f64::from(stands);
        let mut sum = 0.0;
        for below in 1..=stands {
            // The whole string hangs on the hook over the length of a stand, then the block runs back empty.
            // Running in is the same once more.
            let string = w * stand * f64::from(below) + c;
            sum += 2.0 * (string * stand + 2.0 * m * stand);
        }
        let formula = RoundTripWork { depth, stand, buoyed_weight: w, travelling_weight: m, excess_weight: c }.value();
        assert!((formula / sum - 1.0).abs() < 1e-12, "{formula} {sum}");
    }

    #[test]
    fn law_casing_is_half_a_round_trip() {
        let trip = RoundTripWork { depth: 2000.0, stand: 12.0, buoyed_weight: 500.0, travelling_weight: 2e5, excess_weight: 0.0 };
        let casing = CasingWork { depth: 2000.0, joint: 12.0, buoyed_weight: 500.0, travelling_weight: 2e5 };
        assert!((trip.value() - 2.0 * casing.value()).abs() < 1e-3);
    }
}
