//! Weight of pipe in mud, and the two tensions.
//!
//! Effective tension is true tension plus outside pressure on the outside area less inside pressure on the bore. It is
//! what buckles pipe, presses it on the wall and hangs on the hook; true tension is what yields and stretches it.
//! The buoyancy factor holds where the same mud is inside and outside; both ways agree there for a full string.

use crate::tubular::STEEL_DENSITY;
use crate::{Formula, FormulaRecord, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    BuoyancyFactor::RECORD,
    BuoyedWeight::RECORD,
    WeightInMuds::RECORD,
    EffectiveTension::RECORD,
    TrueTension::RECORD,
    TravellingWeight::RECORD,
    HookLoad::RECORD,
    RiserWeight::RECORD,
];

formula! {
    /// Share of its weight in air that pipe has in mud, with the same mud inside and outside.
    pub struct BuoyancyFactor;
    slug "buoyancy-factor";
    equation "BF = 1 - ρ/ρ_s";
    law Homogeneous;
    source "Archimedes; steel is 65.5 ppg in the trade";
    given {
        /// mud weight
        mud_density "ρ" Density must NON_NEGATIVE valid between(0.0, 3000.0);
        /// density of steel
        steel_density "ρ_s" Density must at_least(1.0) valid between(7700.0, 8000.0) default STEEL_DENSITY;
    }
    /// buoyancy factor
    gives "BF" Fraction;
    value |f| 1.0 - f.mud_density / f.steel_density
}

formula! {
    /// Weight of pipe in mud per length, as a force.
    pub struct BuoyedWeight;
    slug "buoyed-weight";
    equation "w = m g BF";
    law Homogeneous;
    source "Archimedes";
    given {
        /// weight per length in air, joints included
        linear_mass "m" LinearMass must NON_NEGATIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
        /// buoyancy factor
        buoyancy_factor "BF" Fraction must at_most(1.0);
    }
    /// buoyed weight per length
    gives "w" ForcePerLength;
    value |f| f.linear_mass * f.gravity * f.buoyancy_factor
}

formula! {
    /// Weight of pipe per length with different fluids inside and outside.
    ///
    /// It is the rate at which effective tension grows with vertical depth upwards.
    /// The outside area is the bore plus steel, m/ρ_s, so that joints displace their share.
    pub struct WeightInMuds;
    slug "weight-in-muds";
    equation "w = [m + ρ_i A_i - ρ_o (A_i + m/ρ_s)] g";
    law Homogeneous;
    source "statics of a pipe full of fluid; Sheppard et al., SPE Drilling Engineering, December 1987 (from memory)";
    given {
        /// weight per length in air, joints included
        linear_mass "m" LinearMass must NON_NEGATIVE;
        /// bore of the pipe
        inner_area "A_i" Area must NON_NEGATIVE;
        /// density of the fluid inside
        inside_density "ρ_i" Density must NON_NEGATIVE valid between(0.0, 3000.0);
        /// density of the fluid outside
        outside_density "ρ_o" Density must NON_NEGATIVE valid between(0.0, 3000.0);
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
        /// density of steel
        steel_density "ρ_s" Density must at_least(1.0) valid between(7700.0, 8000.0) default STEEL_DENSITY;
    }
    /// weight per length
    gives "w" ForcePerLength;
    value |f| {
        let outer_area = f.inner_area + f.linear_mass / f.steel_density;
        (f.linear_mass + f.inside_density * f.inner_area - f.outside_density * outer_area) * f.gravity
    }
}

formula! {
    /// Effective tension: what buckles pipe and presses it on the wall.
    pub struct EffectiveTension;
    slug "effective-tension";
    equation "F_e = F + p_o A_o - p_i A_i";
    law Homogeneous;
    source "statics of a pipe under pressure; Lubinski, Althouse & Logan, JPT June 1962 (from memory)";
    given {
        /// true tension
        true_tension "F" Force must ANY;
        /// pressure outside
        outside_pressure "p_o" Pressure must ANY;
        /// area inside the outside diameter
        outer_area "A_o" Area must NON_NEGATIVE;
        /// pressure inside
        inside_pressure "p_i" Pressure must ANY;
        /// bore of the pipe
        inner_area "A_i" Area must NON_NEGATIVE;
    }
    /// effective tension
    gives "F_e" Force;
    value |f| f.true_tension + f.outside_pressure * f.outer_area - f.inside_pressure * f.inner_area
}

formula! {
    /// True tension: what yields and stretches pipe.
    pub struct TrueTension;
    slug "true-tension";
    equation "F = F_e - p_o A_o + p_i A_i";
    law Homogeneous;
    source "statics of a pipe under pressure; Lubinski, Althouse & Logan, JPT June 1962 (from memory)";
    given {
        /// effective tension
        effective_tension "F_e" Force must ANY;
        /// pressure outside
        outside_pressure "p_o" Pressure must ANY;
        /// area inside the outside diameter
        outer_area "A_o" Area must NON_NEGATIVE;
        /// pressure inside
        inside_pressure "p_i" Pressure must ANY;
        /// bore of the pipe
        inner_area "A_i" Area must NON_NEGATIVE;
    }
    /// true tension
    gives "F" Force;
    value |f| f.effective_tension - f.outside_pressure * f.outer_area + f.inside_pressure * f.inner_area
}

formula! {
    /// Weight that hangs in the lines above the string.
    pub struct TravellingWeight;
    slug "travelling-weight";
    equation "W_t = W_b + W_d";
    law Homogeneous;
    source "statics";
    given {
        /// weight of travelling block and hook
        block_weight "W_b" Force must NON_NEGATIVE;
        /// weight of the top drive; nought for a rotary table
        drive_weight "W_d" Force must NON_NEGATIVE;
    }
    /// weight of block, hook and top drive
    gives "W_t" Force;
    value |f| f.block_weight + f.drive_weight
}

formula! {
    /// Hook load as the weight indicator shows it: string with block, hook and top drive.
    pub struct HookLoad;
    slug "hook-load";
    equation "W = F_e + W_t";
    law Homogeneous;
    source "statics";
    given {
        /// effective tension of the string at surface
        string_load "F_e" Force must ANY;
        /// weight of block, hook and top drive
        travelling_weight "W_t" Force must NON_NEGATIVE;
    }
    /// hook load
    gives "W" Force;
    value |f| f.string_load + f.travelling_weight
}

formula! {
    /// Weight in the sea of a riser with the stack at its lower end.
    pub struct RiserWeight;
    slug "riser-weight";
    equation "W_r = m g L + W_s";
    law Homogeneous;
    source "statics; weights in the sea from the makers' sheets";
    given {
        /// weight per length in sea water, lines and buoyancy included
        linear_mass "m" LinearMass must NON_NEGATIVE;
        /// length of the riser
        length "L" Depth must NON_NEGATIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
        /// weight of the stack in sea water
        stack_weight "W_s" Force must NON_NEGATIVE;
    }
    /// weight of riser and stack in the sea
    gives "W_r" Force;
    value |f| f.linear_mass * f.gravity * f.length + f.stack_weight
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tubular::{PlainEndWeight, SteelArea};
    use std::f64::consts::PI;

    /// A full string in one mud: the buoyancy factor and the pressure on its end say the same, wherever the steel sits.
    #[test]
    fn law_buoyancy_factor_is_pressure_on_areas() {
        let (mud_density, gravity, steel_density, depth) = (1380.0, STANDARD_GRAVITY, STEEL_DENSITY, 4200.0);
        // Two sections from the bottom up: collars and pipe, open-ended, full.
        let sections = [(0.2032, 0.0762, 200.0), (0.127, 0.1086104, 4000.0)];
        let pressure = |z: f64| mud_density * gravity * z;
        let (mut true_tension, mut string_load) = (0.0, 0.0);
        let (mut below, mut bottom) = (0.0, depth);
        for (outer_diameter, inner_diameter, length) in sections {
            let area = SteelArea { outer_diameter, inner_diameter }.value();
            // The mud presses up on the steel that this section shows below the one under it.
            true_tension -= pressure(bottom) * (area - below);
            below = area;
            let linear_mass = PlainEndWeight { outer_diameter, inner_diameter, steel_density }.value();
            true_tension += linear_mass * gravity * length;
            let buoyancy_factor = BuoyancyFactor { mud_density, steel_density }.value();
            string_load += BuoyedWeight { linear_mass, gravity, buoyancy_factor }.value() * length;
            bottom -= length;
            let (outer_area, inner_area) = (PI / 4.0 * outer_diameter.powi(2), PI / 4.0 * inner_diameter.powi(2));
            let (outside_pressure, inside_pressure) = (pressure(bottom), pressure(bottom));
            let effective = EffectiveTension { true_tension, outside_pressure, outer_area, inside_pressure, inner_area }.value();
            assert!((effective / string_load - 1.0).abs() < 1e-12, "{effective} {string_load}");
            let back = TrueTension { effective_tension: effective, outside_pressure, outer_area, inside_pressure, inner_area };
            assert!((back.value() / true_tension - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn law_two_muds_become_one() {
        let (linear_mass, inner_area, gravity, steel_density) = (32.6, 9.26e-3, STANDARD_GRAVITY, STEEL_DENSITY);
        let buoyancy_factor = BuoyancyFactor { mud_density: 1500.0, steel_density }.value();
        let one = BuoyedWeight { linear_mass, gravity, buoyancy_factor }.value();
        let two =
            WeightInMuds { linear_mass, inner_area, inside_density: 1500.0, outside_density: 1500.0, gravity, steel_density };
        assert!((two.value() / one - 1.0).abs() < 1e-12);
        let empty = WeightInMuds { inside_density: 0.0, ..two };
        assert!(empty.value() < one - 100.0, "an empty pipe floats more");
    }
}
