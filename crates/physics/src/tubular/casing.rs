//! Casing as it is designed: what pressure inside leaves of a collapse load, the pull that pressure makes in pipe held
//! at both ends, and what of a strength may be used.
//!
//! Tension is positive. Collapse strength itself is in `collapse`, the stresses of a triaxial load in
//! `rotating::PipeLoad`.

use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    CollapseDifference::RECORD,
    FixedPipeForce::RECORD,
    HotYieldStrength::RECORD,
    AllowedBurst::RECORD,
    AllowedCollapse::RECORD,
    AllowedTension::RECORD,
    AllowedStress::RECORD,
];

formula! {
    /// Pressure outside that collapses pipe as much, without any inside, as both pressures together do.
    ///
    /// Pressure inside presses on less steel than pressure outside. The 2015 edition compares the plain difference and
    /// adds the pressure inside to the axial stress instead.
    pub struct CollapseDifference;
    slug "collapse-pressure-difference";
    equation "p_e = p_o - (1 - 2 t/D) p_i";
    law Homogeneous;
    source "API Bulletin 5C3, 6th ed. 1994, equivalent external pressure (from memory)";
    given {
        /// pressure outside
        outside_pressure "p_o" Pressure must ANY;
        /// pressure inside
        inside_pressure "p_i" Pressure must ANY;
        /// wall
        wall "t" Diameter must NON_NEGATIVE;
        /// outside diameter
        outer_diameter "D" Diameter must at_least(1e-3);
    }
    /// pressure that counts against the collapse strength
    gives "p_e" Pressure;
    value |f| f.outside_pressure - (1.0 - 2.0 * f.wall / f.outer_diameter) * f.inside_pressure
}

formula! {
    /// Pull that changes of pressure make in pipe that cannot move at its ends: pressure inside wants to shorten it.
    ///
    /// Cemented pipe is held everywhere, so the changes at its own depth count; free pipe between hanger and cement is
    /// held at its ends, so their means over its length do. In field units `0.471 (d² Δp_i - D² Δp_o)` with ν = 0.3.
    pub struct FixedPipeForce;
    slug "fixed-pipe-force";
    equation "ΔF = 2 ν (A_i Δp_i - A_o Δp_o)";
    law Homogeneous;
    source "Hooke's law and Lamé; as in Bourgoyne et al., Applied Drilling Engineering, SPE 1986, chapter 7 (from memory)";
    given {
        /// Poisson's ratio
        poisson "ν" Ratio must between(0.0, 0.5) valid between(0.27, 0.31) default 0.3;
        /// area of the bore
        inner_area "A_i" Area must NON_NEGATIVE;
        /// change of the pressure inside
        inside_change "Δp_i" Pressure must ANY;
        /// area over the outside diameter
        outer_area "A_o" Area must NON_NEGATIVE;
        /// change of the pressure outside
        outside_change "Δp_o" Pressure must ANY;
    }
    /// change of the true tension
    gives "ΔF" Force;
    value |f| 2.0 * f.poisson * (f.inner_area * f.inside_change - f.outer_area * f.outside_change)
}

formula! {
    /// Yield strength of warm pipe, straight between the cold figure and the one at the shoe.
    pub struct HotYieldStrength;
    slug "hot-yield-strength";
    equation "Y_T = Y [1 - (1 - k) ΔT/ΔT_s]";
    law Homogeneous;
    source "common practice: a maker's figure for one temperature, straight down to it";
    given {
        /// yield strength when cold
        yield_strength "Y" Stress must NON_NEGATIVE;
        /// share of it that is left at the shoe
        share_left "k" Fraction must FRACTION;
        /// how much warmer it is here than at surface
        warming "ΔT" TemperatureChange must NON_NEGATIVE;
        /// how much warmer it is at the shoe than at surface
        shoe_warming "ΔT_s" TemperatureChange must at_least(1e-3);
    }
    /// yield strength here
    gives "Y_T" Stress;
    value |f| f.yield_strength * (1.0 - (1.0 - f.share_left) * f.warming / f.shoe_warming)
}

formula! {
    /// Burst pressure that may be used.
    pub struct AllowedBurst;
    slug "allowed-burst";
    equation "p = x p_b";
    law Homogeneous;
    source "common practice: a share between 0.7 and 0.9 by operator and regulation";
    given {
        /// burst strength of body or connection
        burst "p_b" Pressure must NON_NEGATIVE;
        /// share of it that may be used
        burst_fraction "x" Fraction must FRACTION valid between(0.5, 1.0);
    }
    /// pressure that may be used
    gives "p" Pressure;
    value |f| f.burst_fraction * f.burst
}

formula! {
    /// Collapse pressure that may be used.
    pub struct AllowedCollapse;
    slug "allowed-collapse";
    equation "p = p_c/n";
    law Homogeneous;
    source "common practice: a factor of 1.0 to 1.125";
    given {
        /// collapse strength
        collapse_strength "p_c" Pressure must NON_NEGATIVE;
        /// design factor
        design_factor "n" Ratio must ONE_OR_MORE default 1.1;
    }
    /// pressure that may be used
    gives "p" Pressure;
    value |f| f.collapse_strength / f.design_factor
}

formula! {
    /// Tension that may be used.
    pub struct AllowedTension;
    slug "allowed-tension";
    equation "P = P_y/n";
    law Homogeneous;
    source "common practice: a factor of 1.6 to 1.8 for casing";
    given {
        /// tension strength of body or connection
        tension_strength "P_y" Force must NON_NEGATIVE;
        /// design factor
        design_factor "n" Ratio must ONE_OR_MORE default 1.6;
    }
    /// tension that may be used
    gives "P" Force;
    value |f| f.tension_strength / f.design_factor
}

formula! {
    /// Equivalent stress that may be used.
    pub struct AllowedStress;
    slug "allowed-stress";
    equation "σ = Y/n";
    law Homogeneous;
    source "common practice: a factor of 1.25 for casing";
    given {
        /// yield strength
        yield_strength "Y" Stress must NON_NEGATIVE;
        /// design factor
        design_factor "n" Ratio must ONE_OR_MORE default 1.25;
    }
    /// stress that may be used
    gives "σ" Stress;
    value |f| f.yield_strength / f.design_factor
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::field::PSI;
    use crate::tubular::{HoopStress, SteelArea};

    /// Both pressures of 5C3's form stress the thin wall as the one pressure alone does: the hoop force of Barlow,
    /// p_o D - p_i d, is that of p_e D.
    #[test]
    fn law_the_one_pressure_makes_the_same_hoop_force() {
        for (wall, outer_diameter) in [(0.012, 0.2445), (0.009, 0.3397), (0.0104, 0.1778)] {
            let (outside_pressure, inside_pressure) = (6e7, 3.5e7);
            let one = CollapseDifference { outside_pressure, inside_pressure, wall, outer_diameter }.value();
            let both = outside_pressure * outer_diameter - inside_pressure * (outer_diameter - 2.0 * wall);
            assert!((one * outer_diameter / both - 1.0).abs() < 1e-12);
            assert!(one > outside_pressure - inside_pressure, "more than the plain difference");
        }
    }

    /// Pipe held at its ends does not change its length: Hooke's strain of the pull less that of the pressures is nought.
    #[test]
    fn law_held_pipe_keeps_its_length() {
        let (outer_diameter, inner_diameter, poisson) = (0.244_475, 0.220_497_4, 0.3);
        let area = |diameter: f64| std::f64::consts::FRAC_PI_4 * diameter * diameter;
        let (inside_change, outside_change) = (2.4e7, -0.9e7);
        let (inner_area, outer_area) = (area(inner_diameter), area(outer_diameter));
        let force = FixedPipeForce { poisson, inner_area, inside_change, outer_area, outside_change }.value();
        // At the bore hoop and radial stress add up to twice the even part of Lamé; the strain along is that of their sum.
        let wall = 0.5 * (outer_diameter - inner_diameter);
        let hoop = HoopStress { inner_diameter, wall, inside_pressure: inside_change, outside_pressure: outside_change }.value();
        let axial = force / SteelArea { outer_diameter, inner_diameter }.value();
        assert!((axial - poisson * (hoop - inside_change)).abs() < 1.0, "strain along the pipe times Young's modulus");
    }

    /// The parts of a chain taken by hand: 80 ksi with 94 % left at 130 K keeps 97 % half-way.
    #[test]
    fn law_warm_pipe_loses_in_proportion() {
        let of = |warming| {
            HotYieldStrength { yield_strength: 80e3 * PSI, share_left: 0.94, warming, shoe_warming: 130.0 }.value() / PSI
        };
        assert!((of(0.0) - 80e3).abs() < 1e-6 && (of(65.0) - 77.6e3).abs() < 1e-6 && (of(130.0) - 75.2e3).abs() < 1e-6);
    }
}
