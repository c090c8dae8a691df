//! Speeds at which a string may swing, beyond the two rules of API RP 7G in `bending`. Advice only: a band, never an alarm.
//!
//! Sideways: a span between two supports, with tension or compression in it and the mud that moves along. Around: the
//! slow twisting of a string that is held at the top and free at the bit, which a sticking bit sets going.

use crate::{Formula, FormulaRecord, formula, numerics};
use std::f64::consts::PI;

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[AddedMass::RECORD, MovingMass::RECORD, LateralSpeed::RECORD, TwistPeriod::RECORD];

/// How far to either side of a critical speed to keep, as a share of it: API RP 7G, 16th ed. 1998. [-]
pub const CRITICAL_SPREAD: f64 = 0.15;

formula! {
    /// Mud that a pipe swinging sideways takes along, over the mud that it displaces.
    ///
    /// One in the open; much more in a narrow annulus. For mud without viscosity and a pipe in the middle of the hole.
    pub struct AddedMass;
    slug "added-mass-coefficient";
    equation "C = [(D + 2r)² + D²]/[(D + 2r)² - D²]";
    law Homogeneous;
    source "potential flow between two cylinders, in texts on flow-induced vibration (from memory)";
    given {
        /// outside diameter
        outer_diameter "D" Diameter must NON_NEGATIVE;
        /// radial clearance
        clearance "r" Diameter must at_least(1e-5);
    }
    /// added mass coefficient
    gives "C" Ratio;
    value |f| {
        let hole = f.outer_diameter + 2.0 * f.clearance;
        (hole * hole + f.outer_diameter * f.outer_diameter) / (2.0 * f.clearance * (hole + f.outer_diameter))
    }
}

formula! {
    /// Mass per length that moves when full pipe swings sideways in mud.
    pub struct MovingMass;
    slug "moving-mass";
    equation "m' = m + ρ π/4 (d² + C D²)";
    law Homogeneous;
    source "texts on flow-induced vibration (from memory)";
    given {
        /// weight per length in air
        linear_mass "m" LinearMass must NON_NEGATIVE;
        /// mud weight
        mud_density "ρ" Density must NON_NEGATIVE valid between(0.0, 3000.0);
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
        /// added mass coefficient
        added_mass "C" Ratio must NON_NEGATIVE;
        /// outside diameter
        outer_diameter "D" Diameter must NON_NEGATIVE;
    }
    /// moving mass per length
    gives "m'" LinearMass;
    value |f| {
        let mud = f.inner_diameter * f.inner_diameter + f.added_mass * f.outer_diameter * f.outer_diameter;
        f.linear_mass + f.mud_density * PI / 4.0 * mud
    }
}

formula! {
    /// Rotary speed at which a span between two supports swings sideways; nought where compression alone buckles it.
    ///
    /// Without tension, in air, it is the 4,760,000/L² √(D² + d²) of API RP 7G. Supports are taken as hinges.
    pub struct LateralSpeed;
    slug "lateral-critical-speed";
    equation "ω = (π/L) √[(T + π² E I/L²)/m]";
    law Homogeneous;
    source "beam with axial load, in any text on vibration";
    given {
        /// length between supports: a joint, or two stabilisers
        span "L" Depth must at_least(1e-3);
        /// effective tension, negative in compression
        effective_tension "T" Force must ANY;
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must NON_NEGATIVE;
        /// moving mass per length
        moving_mass "m" LinearMass must at_least(1e-3);
    }
    /// critical rotary speed
    gives "ω" RotarySpeed;
    value |f| {
        let stiffness = f.effective_tension + (PI / f.span) * (PI / f.span) * f.youngs_modulus * f.second_moment;
        PI / f.span * (stiffness.max(0.0) / f.moving_mass).sqrt()
    }
}

formula! {
    /// Period in which a string twists to and fro, held at the top and free at the bit: what stick and slip follows.
    ///
    /// Drill pipe above, heavier pipe below. With nothing below it is four times the time of a wave through the string.
    pub struct TwistPeriod;
    slug "twist-period";
    equation "tan(ω L/c) tan(ω L_b/c) = J/J_b, c = √(G/ρ), t = 2π/ω";
    law Homogeneous;
    source "torsional waves in a stepped bar, in any text on vibration";
    given {
        /// length of the drill pipe
        length "L" Depth must at_least(1e-3);
        /// polar moment of area of the drill pipe
        polar_moment "J" SecondMoment must at_least(1e-15);
        /// length of the heavier pipe below
        assembly_length "L_b" Depth must NON_NEGATIVE;
        /// polar moment of area of the heavier pipe
        assembly_polar_moment "J_b" SecondMoment must at_least(1e-15);
        /// shear modulus
        shear_modulus "G" Stress must at_least(1.0) valid between(75e9, 85e9) default 79.3e9;
        /// density of steel
        steel_density "ρ" Density must NON_NEGATIVE valid between(7700.0, 8000.0) default crate::tubular::STEEL_DENSITY;
    }
    /// period
    gives "t" Time;
    value |f| {
        let wave = (f.steel_density / f.shear_modulus).sqrt();
        // The slowest root lies where neither part has turned by a right angle. Written with sines and cosines the
        // equation has no pole; it is negative at no turn and positive at the end, so the bracket holds.
        let (longer, shorter) = (f.length.max(f.assembly_length), f.length.min(f.assembly_length));
        let share = f.assembly_polar_moment / f.polar_moment;
        let turn = numerics::root(
            |turn| {
                let other = turn * shorter / longer;
                share * turn.sin() * other.sin() - turn.cos() * other.cos()
            },
            0.0,
            0.5 * PI,
        );
        2.0 * PI * longer * wave / turn.unwrap_or(0.5 * PI)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rotating::SwingSpeed;
    use crate::tubular::{PlainEndWeight, STEEL_DENSITY, SecondMoment};

    /// In air and without tension the beam gives the rule of RP 7G, whose constant is rounded.
    #[test]
    fn law_rule_of_rp_7g_is_a_hinged_beam() {
        for (outer_diameter, inner_diameter, joint) in [(0.1143, 0.0972, 9.3), (0.127, 0.1086, 9.1), (0.0889, 0.0702, 8.0)] {
            let moving_mass = PlainEndWeight { outer_diameter, inner_diameter, steel_density: STEEL_DENSITY }.value();
            let second_moment = SecondMoment { outer_diameter, inner_diameter }.value();
            let beam =
                LateralSpeed { span: joint, effective_tension: 0.0, youngs_modulus: 206.843e9, second_moment, moving_mass }
                    .value();
            let rule = SwingSpeed { joint, outer_diameter, inner_diameter }.value();
            assert!((beam / rule - 1.0).abs() < 1e-3, "{beam} {rule}");
        }
    }

    /// Tension raises the speed, compression lowers it to nought at Euler's load; mud lowers it.
    #[test]
    fn law_tension_and_mud() {
        let (span, youngs_modulus, second_moment, moving_mass) = (9.3, 206.8e9, 5.9e-6, 29.0);
        let at = |effective_tension: f64, moving_mass: f64| {
            LateralSpeed { span, effective_tension, youngs_modulus, second_moment, moving_mass }.value()
        };
        let euler = PI * PI * youngs_modulus * second_moment / (span * span);
        assert!(at(-euler * (1.0 + 1e-9), moving_mass).abs() < 1e-9);
        assert!((at(3.0 * euler, moving_mass) / at(0.0, moving_mass) - 2.0).abs() < 1e-12);
        let open = AddedMass { outer_diameter: 0.127, clearance: 50.0 }.value();
        let tight = AddedMass { outer_diameter: 0.127, clearance: 0.01 }.value();
        assert!((open - 1.0).abs() < 1e-5 && tight > 5.0);
        let in_mud = MovingMass {
            linear_mass: 29.0,
            mud_density: 1400.0,
            inner_diameter: 0.1086,
            added_mass: open,
            outer_diameter: 0.127,
        };
        assert!(at(0.0, in_mud.value()) < at(0.0, moving_mass));
    }

    /// One pipe cut in two anywhere twists as one pipe: a quarter wave; a heavy end makes it slower, as a disc on a spring.
    #[test]
    fn law_twist_limits() {
        let (shear_modulus, steel_density) = (79.3e9, 7850.0);
        let period = |length: f64, polar_moment: f64, assembly_length: f64, assembly_polar_moment: f64| {
            TwistPeriod { length, polar_moment, assembly_length, assembly_polar_moment, shear_modulus, steel_density }.value()
        };
        let quarter = 4.0 * 3000.0 * (steel_density / shear_modulus).sqrt();
        for cut in [0.0, 1.0, 400.0, 1500.0, 2900.0] {
            assert!((period(3000.0 - cut, 1.2e-5, cut, 1.2e-5) / quarter - 1.0).abs() < 1e-9, "{cut}");
        }
        assert!(period(2800.0, 1.2e-5, 200.0, 1.6e-4) > quarter);
        let (length, pipe, height, disc) = (100.0, 1e-6, 0.1, 1.0);
        let spring = 2.0 * PI * (steel_density * height * disc * length / (shear_modulus * pipe)).sqrt();
        assert!((period(length, pipe, height, disc) / spring - 1.0).abs() < 1e-3);
    }
}
