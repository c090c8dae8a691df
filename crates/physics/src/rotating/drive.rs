//! The drive and the bit: power, torque, and what drilling says about the rock.

use crate::field::{FOOT, INCH, POUND_FORCE};
use crate::{Formula, FormulaRecord, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    RotaryPower::RECORD,
    DriveTorque::RECORD,
    BitTorque::RECORD,
    SpecificEnergy::RECORD,
    DExponent::RECORD,
    CorrectedDExponent::RECORD,
];

/// One revolution per minute. [rad/s]
const REVOLUTION_PER_MINUTE: f64 = 2.0 * PI / 60.0;

formula! {
    /// Power of a torque at a speed. In field units `hp = T n/5252`.
    pub struct RotaryPower;
    slug "rotary-power";
    equation "P = T ω";
    law Homogeneous;
    source "definition";
    given {
        /// torque
        torque "T" Torque must ANY;
        /// rotary speed
        rotary_speed "ω" RotarySpeed must ANY;
    }
    /// power
    gives "P" Power;
    value |f| f.torque * f.rotary_speed
}

formula! {
    /// Torque that a drive gives at a speed: flat up to its base speed, constant power beyond.
    pub struct DriveTorque;
    slug "drive-torque";
    equation "T = min(T_r, P/ω)";
    law Homogeneous;
    source "common practice: maker's curve of an electric top drive in its two straight pieces";
    given {
        /// continuous torque up to the base speed
        rated_torque "T_r" Torque must NON_NEGATIVE;
        /// output power
        power "P" Power must NON_NEGATIVE;
        /// rotary speed
        rotary_speed "ω" RotarySpeed must NON_NEGATIVE;
    }
    /// torque at that speed
    gives "T" Torque;
    value |f| {
        // At rest power sets no limit; comparing products avoids the division by nought.
        if f.power >= f.rated_torque * f.rotary_speed { f.rated_torque } else { f.power / f.rotary_speed }
    }
}

formula! {
    /// Torque that the bit takes, from its weight.
    pub struct BitTorque;
    slug "bit-torque";
    equation "T = μ W D/3";
    law Homogeneous;
    source "Pessier & Fear, SPE 24584 (1992) (from memory)";
    given {
        /// sliding coefficient of the bit: 0.2 to 0.4 roller cone, 0.5 to 0.8 PDC
        bit_coefficient "μ" Ratio must NON_NEGATIVE valid between(0.1, 1.2);
        /// weight on bit
        weight_on_bit "W" Force must NON_NEGATIVE;
        /// bit diameter
        bit_diameter "D" Diameter must NON_NEGATIVE;
    }
    /// bit torque
    gives "T" Torque;
    value |f| f.bit_coefficient * f.weight_on_bit * f.bit_diameter / 3.0
}

formula! {
    /// Mechanical specific energy: work at the bit per volume of rock.
    ///
    /// In field units `W/A + 120 π n T/(A R)`, psi. Take the torque at the bit; with a motor add its speed.
    pub struct SpecificEnergy;
    slug "mechanical-specific-energy";
    equation "E = W/A + ω T/(A R), A = π/4 D²";
    law Homogeneous;
    source "Teale, Int. J. Rock Mechanics and Mining Sciences 2 (1965) 57";
    given {
        /// weight on bit
        weight_on_bit "W" Force must NON_NEGATIVE;
        /// bit diameter
        bit_diameter "D" Diameter must at_least(1e-3);
        /// rotary speed of the bit
        rotary_speed "ω" RotarySpeed must NON_NEGATIVE;
        /// bit torque
        bit_torque "T" Torque must NON_NEGATIVE;
        /// rate of penetration
        penetration_rate "R" DrillingRate must at_least(1e-9);
    }
    /// specific energy
    gives "E" Stress;
    value |f| {
        let area = PI / 4.0 * f.bit_diameter * f.bit_diameter;
        f.weight_on_bit / area + f.rotary_speed * f.bit_torque / (area * f.penetration_rate)
    }
}

formula! {
    /// Drilling exponent: rate of penetration freed from weight, speed and size. Only its trend in shale says anything.
    pub struct DExponent;
    slug "d-exponent";
    equation "d = log(R/(60 n))/log(12 W/(10⁶ D))";
    law Empirical("ft/h, rpm, lbf, in");
    source "Jorden & Shirley, JPT November 1966, as in Lapeyrouse, Formulas and Calculations, 2nd ed. 2002";
    given {
        /// rate of penetration
        penetration_rate "R" DrillingRate must between(1e-9, 1.0) valid between(1e-4, 0.1);
        /// rotary speed
        rotary_speed "n" RotarySpeed must between(0.01, 100.0) valid between(3.0, 30.0);
        /// weight on bit; the logarithm below has no meaning above 1,000 klbf per 12 in of bit
        weight_on_bit "W" Force must between(100.0, 8e5) valid between(1e4, 4e5);
        /// bit diameter
        bit_diameter "D" Diameter must between(0.06, 2.0) valid between(0.1, 0.7);
    }
    /// drilling exponent
    gives "d" Ratio;
    value |f| {
        let feet_per_hour = f.penetration_rate * 3600.0 / FOOT;
        let rpm = f.rotary_speed / REVOLUTION_PER_MINUTE;
        let weight = 12.0 * f.weight_on_bit / POUND_FORCE / 1e6;
        (feet_per_hour / (60.0 * rpm)).ln() / (weight / (f.bit_diameter / INCH)).ln()
    }
}

formula! {
    /// Drilling exponent corrected for the mud weight.
    pub struct CorrectedDExponent;
    slug "corrected-d-exponent";
    equation "d_c = d ρ_n/ρ";
    law Homogeneous;
    source "Rehm & McClendon, SPE 3543 (1971)";
    given {
        /// drilling exponent
        d_exponent "d" Ratio must ANY;
        /// mud weight of the normal pore pressure
        normal_density "ρ_n" Density must NON_NEGATIVE valid between(950.0, 1150.0);
        /// mud weight, or equivalent circulating density where known
        mud_density "ρ" Density must at_least(1.0) valid between(800.0, 2600.0);
    }
    /// corrected drilling exponent
    gives "d_c" Ratio;
    value |f| f.d_exponent * f.normal_density / f.mud_density
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Flat to the base speed, constant power beyond, without a jump.
    #[test]
    fn law_drive_torque_joins_at_base_speed() {
        let (rated_torque, power) = (5e4, 8e5);
        let at = |rotary_speed: f64| DriveTorque { rated_torque, power, rotary_speed }.value();
        let base = power / rated_torque;
        assert!((at(0.0) - rated_torque).abs() < 1e-9);
        assert!((at(base * (1.0 + 1e-9)) / at(base * (1.0 - 1e-9)) - 1.0).abs() < 1e-8);
        let fast = RotaryPower { torque: at(2.0 * base), rotary_speed: 2.0 * base };
        assert!((fast.value() / power - 1.0).abs() < 1e-12);
    }

    /// Specific energy is power at the bit, by weight and by torque, over the volume of rock drilled per time.
    #[test]
    fn law_specific_energy_is_power_per_rock() {
        let (weight_on_bit, bit_diameter, rotary_speed, bit_torque, penetration_rate) = (1.5e5, 0.216, 12.0, 6e3, 4e-3);
        let energy = SpecificEnergy { weight_on_bit, bit_diameter, rotary_speed, bit_torque, penetration_rate }.value();
        let rock = PI / 4.0 * bit_diameter * bit_diameter * penetration_rate;
        let power = weight_on_bit * penetration_rate + RotaryPower { torque: bit_torque, rotary_speed }.value();
        assert!((energy * rock / power - 1.0).abs() < 1e-12);
    }
}
