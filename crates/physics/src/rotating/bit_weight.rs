//! Weight for the bit: how much collar it takes and where the string turns from compression to tension.
//!
//! The buoyancy factor is the right one here, not pressure on areas: buckling hangs on effective tension.

use crate::{Formula, FormulaRecord, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] =
    &[CollarLength::RECORD, HeavyWeightLength::RECORD, NeutralPoint::RECORD, WeightAvailable::RECORD];

formula! {
    /// Length of collars for a weight on bit.
    pub struct CollarLength;
    slug "collar-length";
    equation "L = W f/(m g BF cos α)";
    law Homogeneous;
    source "Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, section 2.5";
    given {
        /// weight on bit
        weight_on_bit "W" Force must NON_NEGATIVE;
        /// factor that keeps the neutral point in the collars: 1.10 to 1.20
        factor "f" Ratio must ONE_OR_MORE valid between(1.0, 2.0) default 1.15;
        /// weight per length of the collars in air
        linear_mass "m" LinearMass must at_least(1e-3);
        /// buoyancy factor
        buoyancy_factor "BF" Fraction must between(0.01, 1.0);
        /// inclination of the hole
        inclination "α" Angle must between(0.0, 1.55) default 0.0;
        /// acceleration of free fall
        gravity "g" Acceleration must at_least(1e-3) valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// length of collars
    gives "L" Depth;
    value |f| f.weight_on_bit * f.factor / (f.linear_mass * f.gravity * f.buoyancy_factor * f.inclination.cos())
}

formula! {
    /// Length of heavy-weight pipe that makes up the weight on bit above the collars there are.
    pub struct HeavyWeightLength;
    slug "heavy-weight-length";
    equation "L = (W - m_c L_c g BF cos α) f/(m g BF cos α)";
    law Homogeneous;
    source "Lyons (ed.), Standard Handbook of Petroleum & Natural Gas Engineering, vol. 1, 1996, p. 763";
    given {
        /// weight on bit
        weight_on_bit "W" Force must NON_NEGATIVE;
        /// weight per length of the collars in air
        collar_mass "m_c" LinearMass must NON_NEGATIVE;
        /// length of the collars
        collar_length "L_c" Depth must NON_NEGATIVE;
        /// weight per length of the heavy-weight pipe in air
        linear_mass "m" LinearMass must at_least(1e-3);
        /// factor that keeps the neutral point in the heavy-weight pipe
        factor "f" Ratio must ONE_OR_MORE valid between(1.0, 2.0) default 1.15;
        /// buoyancy factor
        buoyancy_factor "BF" Fraction must between(0.01, 1.0);
        /// inclination of the hole
        inclination "α" Angle must between(0.0, 1.55) default 0.0;
        /// acceleration of free fall
        gravity "g" Acceleration must at_least(1e-3) valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// length of heavy-weight pipe; nought or less when the collars are enough
    gives "L" Depth;
    value |f| {
        let along = f.gravity * f.buoyancy_factor * f.inclination.cos();
        (f.weight_on_bit - f.collar_mass * f.collar_length * along) * f.factor / (f.linear_mass * along)
    }
}

formula! {
    /// Height of the neutral point above the bit in pipe of one weight, without friction.
    ///
    /// It is where effective tension is nought; the place where true axial stress is nought has no use here.
    pub struct NeutralPoint;
    slug "neutral-point";
    equation "L = W/(m g BF cos α)";
    law Homogeneous;
    source "Lubinski, Drilling and Production Practice, API 1950 (from memory)";
    given {
        /// weight on bit
        weight_on_bit "W" Force must NON_NEGATIVE;
        /// weight per length in air
        linear_mass "m" LinearMass must at_least(1e-3);
        /// buoyancy factor
        buoyancy_factor "BF" Fraction must between(0.01, 1.0);
        /// inclination of the hole
        inclination "α" Angle must between(0.0, 1.55) default 0.0;
        /// acceleration of free fall
        gravity "g" Acceleration must at_least(1e-3) valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// height above the bit
    gives "L" Depth;
    value |f| f.weight_on_bit / (f.linear_mass * f.gravity * f.buoyancy_factor * f.inclination.cos())
}

formula! {
    /// Weight on bit that collars and heavy-weight pipe can give with the neutral point still among them.
    pub struct WeightAvailable;
    slug "weight-on-bit-available";
    equation "W = M g BF cos α/f";
    law Homogeneous;
    source "inverse of the collar length; factor of 1.10 to 1.20 common practice";
    given {
        /// mass of collars and heavy-weight pipe
        assembly_mass "M" Mass must NON_NEGATIVE;
        /// buoyancy factor
        buoyancy_factor "BF" Fraction must between(0.0, 1.0);
        /// inclination of the hole
        inclination "α" Angle must between(0.0, 1.58) default 0.0;
        /// factor that keeps the neutral point among them
        factor "f" Ratio must ONE_OR_MORE valid between(1.0, 2.0) default 1.15;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// weight on bit available
    gives "W" Force;
    value |f| f.assembly_mass * f.gravity * f.buoyancy_factor * f.inclination.cos() / f.factor
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Collars of the computed length, then heavy-weight pipe for the rest, give the weight asked times the factor.
    #[test]
    fn law_lengths_give_the_weight() {
        let (weight_on_bit, factor, buoyancy_factor, inclination, gravity) = (1.6e5, 1.15, 0.84, 0.5, STANDARD_GRAVITY);
        let linear_mass = 218.0;
        let length = CollarLength { weight_on_bit, factor, linear_mass, buoyancy_factor, inclination, gravity }.value();
        let assembly_mass = linear_mass * length;
        let back = WeightAvailable { assembly_mass, buoyancy_factor, inclination, factor, gravity }.value();
        assert!((back / weight_on_bit - 1.0).abs() < 1e-12);
        let neutral = NeutralPoint { weight_on_bit, linear_mass, buoyancy_factor, inclination, gravity }.value();
        assert!((neutral * factor / length - 1.0).abs() < 1e-12);
        let pipe = HeavyWeightLength {
            weight_on_bit,
            collar_mass: linear_mass,
            collar_length: neutral,
            linear_mass: 73.0,
            factor,
            buoyancy_factor,
            inclination,
            gravity,
        };
        assert!(pipe.value().abs() < 1e-9, "collars up to the neutral point leave nothing to make up");
    }
}
