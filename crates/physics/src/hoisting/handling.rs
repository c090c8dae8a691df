//! Slips, overpull and string length: what the pipe in the rotary allows.

use crate::{Formula, FormulaRecord, STANDARD_GRAVITY, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    SlipFactor::RECORD,
    SlipStressRatio::RECORD,
    SlipLoad::RECORD,
    MarginOfOverpull::RECORD,
    TensionDesignFactor::RECORD,
    LongestString::RECORD,
    PumpOpenForce::RECORD,
];

/// Taper of the slip bowl: 9° 27' 45". [rad]
const SLIP_TAPER: f64 = (9.0 + 27.0 / 60.0 + 45.0 / 3600.0) / 180.0 * PI;

formula! {
    /// How many times its load slips press sideways.
    ///
    /// Clean, greased bowls have the least friction, 0.06 to 0.08, and press the hardest.
    pub struct SlipFactor;
    slug "slip-factor";
    equation "K = 1/tan(y + atan μ), y = 9° 27' 45\"";
    law Homogeneous;
    source "Reinhold & Spiri, World Oil, October 1959, as in the IADC Drilling Manual (from memory)";
    given {
        /// friction between slips and bowl
        friction "μ" Ratio must between(0.0, 1.0) valid between(0.06, 0.14) default 0.08;
    }
    /// transverse factor
    gives "K" Ratio;
    value |f| 1.0 / (SLIP_TAPER + f.friction.atan()).tan()
}

formula! {
    /// Stress around pipe in slips over the stress of plain tension.
    pub struct SlipStressRatio;
    slug "slip-stress-ratio";
    equation "S_h/S_t = √[1 + D K/(2 L) + (D K/(2 L))²]";
    law Homogeneous;
    source "Reinhold & Spiri, World Oil, October 1959, as in the IADC Drilling Manual (from memory)";
    given {
        /// outside diameter of the pipe
        outer_diameter "D" Diameter must NON_NEGATIVE;
        /// transverse factor
        slip_factor "K" Ratio must NON_NEGATIVE valid between(2.0, 5.0) default 4.0;
        /// length of pipe that the slips hold: 12 or 16 in
        slip_length "L" Diameter must at_least(1e-3);
    }
    /// stress ratio
    gives "S_h/S_t" Ratio;
    value |f| {
        let squeeze = f.outer_diameter * f.slip_factor / (2.0 * f.slip_length);
        (1.0 + squeeze + squeeze * squeeze).sqrt()
    }
}

formula! {
    /// Load at which slips begin to crush the pipe, less a design factor.
    ///
    /// Tests fall about 20 % below this model (Sathuvalli et al., IADC/SPE 74488) and the load is not even all round:
    /// keep the factor well above 1.
    pub struct SlipLoad;
    slug "slip-crushing-load";
    equation "W = P/[(S_h/S_t) n]";
    law Homogeneous;
    source "Reinhold & Spiri, World Oil, October 1959 (from memory); factor of at least 1.1 common practice";
    given {
        /// tension strength of the pipe
        tension_strength "P" Force must NON_NEGATIVE;
        /// stress ratio in the slips
        stress_ratio "S_h/S_t" Ratio must ONE_OR_MORE;
        /// design factor
        design_factor "n" Ratio must ONE_OR_MORE default 1.1;
    }
    /// load allowed in the slips
    gives "W" Force;
    value |f| f.tension_strength / (f.stress_ratio * f.design_factor)
}

formula! {
    /// Pull left above the working load until the allowed share of the pipe's strength.
    ///
    /// The string load is the hook load less block and top drive: these hang above the pipe.
    pub struct MarginOfOverpull;
    slug "margin-of-overpull";
    equation "MOP = c P - W";
    law Homogeneous;
    source "API RP 7G, 16th ed. 1998; 85 to 90 % of premium class common practice";
    given {
        /// tension strength of the pipe by its class
        tension_strength "P" Force must NON_NEGATIVE;
        /// share of it that may be used
        share "c" Fraction must FRACTION valid between(0.5, 1.0) default 0.9;
        /// load on the pipe, without block and top drive
        string_load "W" Force must ANY;
    }
    /// margin of overpull
    gives "MOP" Force;
    value |f| f.share * f.tension_strength - f.string_load
}

formula! {
    /// Allowed pull over working load.
    pub struct TensionDesignFactor;
    slug "tension-design-factor";
    equation "n = c P/W";
    law Homogeneous;
    source "API RP 7G, 16th ed. 1998";
    given {
        /// tension strength of the pipe by its class
        tension_strength "P" Force must NON_NEGATIVE;
        /// share of it that may be used
        share "c" Fraction must FRACTION valid between(0.5, 1.0) default 0.9;
        /// load on the pipe, without block and top drive
        string_load "W" Force must at_least(1.0);
    }
    /// design factor
    gives "n" Ratio;
    value |f| f.share * f.tension_strength / f.string_load
}

formula! {
    /// Longest run of drill pipe above a given assembly that still leaves the margin of overpull.
    ///
    /// A much-copied form multiplies by the buoyancy factor where it must divide, and comes out 40 % short.
    pub struct LongestString;
    slug "longest-string";
    equation "L = (c P - MOP - M g BF)/(m g BF)";
    law Homogeneous;
    source "statics; API RP 7G, 16th ed. 1998";
    given {
        /// tension strength of the pipe by its class
        tension_strength "P" Force must NON_NEGATIVE;
        /// share of it that may be used
        share "c" Fraction must FRACTION valid between(0.5, 1.0) default 0.9;
        /// margin of overpull to keep
        overpull "MOP" Force must NON_NEGATIVE;
        /// mass of everything below the drill pipe
        assembly_mass "M" Mass must NON_NEGATIVE;
        /// weight per length of the drill pipe in air, joints included
        linear_mass "m" LinearMass must at_least(1e-3);
        /// buoyancy factor
        buoyancy_factor "BF" Fraction must between(0.01, 1.0);
        /// acceleration of free fall
        gravity "g" Acceleration must at_least(1e-3) valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// length of drill pipe
    gives "L" Depth;
    value |f| {
        let left = f.share * f.tension_strength - f.overpull - f.assembly_mass * f.gravity * f.buoyancy_factor;
        left / (f.linear_mass * f.gravity * f.buoyancy_factor)
    }
}

formula! {
    /// Force by which pump pressure pushes a jar or bumper open; it comes off the pull that may be used.
    pub struct PumpOpenForce;
    slug "pump-open-force";
    equation "F = A Δp";
    law Homogeneous;
    source "statics";
    given {
        /// area of the seal
        seal_area "A" Area must NON_NEGATIVE;
        /// pressure inside less pressure outside
        pressure_difference "Δp" Pressure must ANY;
    }
    /// pump open force
    gives "F" Force;
    value |f| f.seal_area * f.pressure_difference
}

#[cfg(test)]
mod tests {
    use super::*;

    /// At the longest string the margin of overpull is just what was asked.
    #[test]
    fn law_longest_string_keeps_the_margin() {
        let (tension_strength, share, buoyancy_factor, gravity) = (2.5e6, 0.9, 0.82, STANDARD_GRAVITY);
        let (assembly_mass, linear_mass, overpull) = (2.2e4, 32.0, 4.5e5);
        let string = LongestString { tension_strength, share, overpull, assembly_mass, linear_mass, buoyancy_factor, gravity };
        let string_load = (assembly_mass + linear_mass * string.value()) * gravity * buoyancy_factor;
        let margin = MarginOfOverpull { tension_strength, share, string_load }.value();
        assert!((margin / overpull - 1.0).abs() < 1e-9);
    }

    /// Without squeeze the slips are as plain tension.
    #[test]
    fn law_no_squeeze_no_crushing() {
        let loose = SlipStressRatio { outer_diameter: 0.127, slip_factor: 0.0, slip_length: 0.4 };
        assert!((loose.value() - 1.0).abs() < 1e-15);
        let (low, high) = (SlipFactor { friction: 0.06 }.value(), SlipFactor { friction: 0.14 }.value());
        assert!(low > high, "less friction presses harder");
    }
}
