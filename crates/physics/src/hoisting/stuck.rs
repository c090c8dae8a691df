//! Stuck pipe: how far a whole string stretches and twists, how deep it is free, what a jar may be pulled with, and what
//! holds pipe that is stuck by differential pressure.
//!
//! Sections are listed from the top down, joints left out: they make a string 4 to 6 % stiffer (common practice).
//! Friction hides stretch and twist: take the mean of readings up and down, and trust none of it in a crooked hole.
//! Back-off stores the torque of the whole string: clear the floor.

use super::stretch::{FreeLength, PullStretch};
use crate::tubular::Twist;
use crate::{Formula, FormulaRecord, Recorder, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    AxialStrain::RECORD,
    StrainLength::RECORD,
    ThermalStrain::RECORD,
    TwistedLength::RECORD,
    JarTriggerLoad::RECORD,
    CakeContactWidth::RECORD,
    StickingForce::RECORD,
];

formula! {
    /// Strain of pipe under effective tension and pressure.
    ///
    /// The same as true tension over E A less Poisson's strain from the pressure on both walls.
    pub struct AxialStrain;
    slug "axial-strain";
    equation "ε = [F_e + (1 - 2 ν)(p_i A_i - p_o A_o)]/(E A)";
    law Homogeneous;
    source "Hooke and Lamé; Lubinski, Althouse & Logan, JPT June 1962 (from memory)";
    given {
        /// effective tension
        effective_tension "F_e" Force must ANY;
        /// Poisson's ratio
        poisson "ν" Ratio must between(0.0, 0.5) valid between(0.27, 0.31) default 0.28;
        /// pressure inside
        inside_pressure "p_i" Pressure must ANY;
        /// bore of the pipe
        inner_area "A_i" Area must NON_NEGATIVE;
        /// pressure outside
        outside_pressure "p_o" Pressure must ANY;
        /// area inside the outside diameter
        outer_area "A_o" Area must NON_NEGATIVE;
        /// Young's modulus
        youngs_modulus "E" Stress must at_least(1e3) valid between(190e9, 215e9) default 206.8e9;
        /// area of steel
        steel_area "A" Area must at_least(1e-9);
    }
    /// strain, longer positive
    gives "ε" Ratio;
    value |f| {
        let ends = f.inside_pressure * f.inner_area - f.outside_pressure * f.outer_area;
        (f.effective_tension + (1.0 - 2.0 * f.poisson) * ends) / (f.youngs_modulus * f.steel_area)
    }
}

formula! {
    /// Change of length from a strain.
    pub struct StrainLength;
    slug "strain-length";
    equation "e = ε L";
    law Homogeneous;
    source "definition of strain";
    given {
        /// strain
        strain "ε" Ratio must ANY;
        /// length
        length "L" Depth must NON_NEGATIVE;
    }
    /// change of length
    gives "e" Depth;
    value |f| f.strain * f.length
}

formula! {
    /// Strain of pipe that is warmer than it was when it was measured.
    pub struct ThermalStrain;
    slug "thermal-strain";
    equation "ε = α (T - T₀)";
    law Homogeneous;
    source "definition; 12.4e-6 per kelvin for carbon steel (6.9e-6 per degree Fahrenheit), common practice";
    given {
        /// thermal expansion of steel
        thermal_expansion "α" Expansion must NON_NEGATIVE valid between(1.1e-5, 1.3e-5) default 12.4e-6;
        /// mean temperature in the hole
        temperature "T" Temperature must NON_NEGATIVE;
        /// temperature at which it was measured
        measured_temperature "T₀" Temperature must NON_NEGATIVE;
    }
    /// strain, longer positive
    gives "ε" Ratio;
    value |f| f.thermal_expansion * (f.temperature - f.measured_temperature)
}

formula! {
    /// Length of pipe that is free to turn, from the twist of a torque.
    pub struct TwistedLength;
    slug "twisted-length";
    equation "L = θ G J/T";
    law Homogeneous;
    source "strength of materials";
    given {
        /// angle of twist
        twist "θ" Angle must NON_NEGATIVE;
        /// shear modulus of steel: 79 to 80 GPa
        shear_modulus "G" Stress must NON_NEGATIVE valid between(75e9, 85e9) default 79.3e9;
        /// polar moment of area
        polar_moment "J" SecondMoment must NON_NEGATIVE;
        /// torque
        torque "T" Torque must at_least(1e-3);
    }
    /// length that is free to turn
    gives "L" Depth;
    value |f| f.twist * f.shear_modulus * f.polar_moment / f.torque
}

formula! {
    /// Pull that may be put on a jar: what the pipe bears, less what hangs on it above the jar and what the pump opens it with.
    pub struct JarTriggerLoad;
    slug "jar-trigger-load";
    equation "F = P - W - F_p";
    law Homogeneous;
    source "Mitchell, drilling engineering handbook, worksheet BHA Design, 1990";
    given {
        /// pull that the weakest pipe above may bear
        working_tension "P" Force must NON_NEGATIVE;
        /// buoyed weight above the jar
        weight_above "W" Force must NON_NEGATIVE;
        /// pump open force
        pump_open_force "F_p" Force must ANY default 0.0;
    }
    /// pull on the jar
    gives "F" Force;
    value |f| f.working_tension - f.weight_above - f.pump_open_force
}

formula! {
    /// Width on which pipe that lies on the rock is bedded in the mud cake.
    ///
    /// The chord that the face of the cake cuts off the pipe.
    pub struct CakeContactWidth;
    slug "cake-contact-width";
    equation "b = 2 √{(D_h/2 - h)² - [D_h/2 - h (D_h - h)/(2 r)]²}";
    law Homogeneous;
    source "Azar & Samuel, Drilling Engineering, 2007, differential sticking (from memory); geometry";
    given {
        /// hole diameter
        hole_diameter "D_h" Diameter must NON_NEGATIVE;
        /// thickness of the mud cake, thinner than the gap on the far side of the pipe
        cake "h" Diameter must NON_NEGATIVE;
        /// radial clearance
        clearance "r" Diameter must at_least(1e-5);
    }
    /// width of contact
    gives "b" Diameter;
    value |f| {
        let half = 0.5 * f.hole_diameter;
        let face = half - f.cake;
        let offset = half - f.cake * (f.hole_diameter - f.cake) / (2.0 * f.clearance);
        // Difference of squares as a product; nought where the cake does not reach the pipe's sides.
        2.0 * ((face - offset) * (face + offset)).max(0.0).sqrt()
    }
}

formula! {
    /// Force that frees pipe stuck by differential pressure.
    pub struct StickingForce;
    slug "differential-sticking-force";
    equation "F = μ Δp b L";
    law Homogeneous;
    source "Coulomb friction; Azar & Samuel, Drilling Engineering, 2007 (from memory)";
    given {
        /// friction between pipe and cake
        cake_friction "μ" Ratio must NON_NEGATIVE valid between(0.05, 0.5);
        /// pressure of the mud less pore pressure
        pressure_difference "Δp" Pressure must ANY;
        /// width of contact
        contact_width "b" Diameter must NON_NEGATIVE;
        /// length against the permeable rock
        length "L" Depth must NON_NEGATIVE;
    }
    /// force
    gives "F" Force;
    value |f| f.cake_friction * f.pressure_difference * f.contact_width * f.length
}

/// A run of like pipe with its mean state.
#[derive(Clone, Copy, Debug)]
pub struct StrainedSection {
    /// Length. [m]
    pub length: f64,
    /// Area of steel. [m²]
    pub steel_area: f64,
    /// Bore. [m²]
    pub inner_area: f64,
    /// Area inside the outside diameter. [m²]
    pub outer_area: f64,
    /// Effective tension half-way. [N]
    pub effective_tension: f64,
    /// Pressure inside half-way. [Pa]
    pub inside_pressure: f64,
    /// Pressure outside half-way. [Pa]
    pub outside_pressure: f64,
    /// Temperature half-way. [K]
    pub temperature: f64,
}

/// What the string is made of.
#[derive(Clone, Copy, Debug)]
pub struct Steel {
    /// Young's modulus. [Pa]
    pub youngs_modulus: f64,
    /// Shear modulus. [Pa]
    pub shear_modulus: f64,
    /// Poisson's ratio. [-]
    pub poisson: f64,
    /// Thermal expansion. [1/K]
    pub thermal_expansion: f64,
}

/// How much longer a string is in the hole than on the rack. Exact where tension, pressure and temperature run in
/// straight lines over each section. [m]
pub fn string_stretch<R: Recorder>(sections: &[StrainedSection], steel: &Steel, measured_temperature: f64, rec: &mut R) -> f64 {
    let Steel { youngs_modulus, poisson, thermal_expansion, .. } = *steel;
    let mut stretch = 0.0;
    for section in sections {
        let StrainedSection { length, steel_area, inner_area, outer_area, effective_tension, temperature, .. } = *section;
        let StrainedSection { inside_pressure, outside_pressure, .. } = *section;
        let pulled = rec.take(AxialStrain {
            effective_tension,
            poisson,
            inside_pressure,
            inner_area,
            outside_pressure,
            outer_area,
            youngs_modulus,
            steel_area,
        });
        let warmed = rec.take(ThermalStrain { thermal_expansion, temperature, measured_temperature });
        stretch += rec.take(StrainLength { strain: pulled + warmed, length });
    }
    stretch
}

/// A run of like pipe that is pulled and turned.
#[derive(Clone, Copy, Debug)]
pub struct FreeSection {
    /// Length. [m]
    pub length: f64,
    /// Area of steel. [m²]
    pub steel_area: f64,
    /// Polar moment of area. [m⁴]
    pub polar_moment: f64,
}

/// How deep a string is free.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FreePoint {
    /// Free length from the top. [m]
    pub depth: f64,
    /// The reading is more than the whole string gives: nothing is stuck, or the reading is wrong.
    pub whole: bool,
}

/// Free length from the stretch that a pull adds, section by section from the top down.
pub fn free_point_by_pull<R: Recorder>(
    sections: &[FreeSection],
    steel: &Steel,
    pull: f64,
    stretch: f64,
    rec: &mut R,
) -> FreePoint {
    let youngs_modulus = steel.youngs_modulus;
    let (mut left, mut depth, pull) = (stretch.max(0.0), 0.0, pull.max(1.0));
    for section in sections {
        let FreeSection { length, steel_area, .. } = *section;
        let whole = rec.take(PullStretch { pull, length, youngs_modulus, steel_area });
        if whole > left {
            let free = rec.take(FreeLength { stretch: left, pull, youngs_modulus, steel_area });
            return FreePoint { depth: depth + free, whole: false };
        }
        left -= whole;
        depth += length;
    }
    FreePoint { depth, whole: true }
}

/// Free length from the twist that a torque adds, section by section from the top down.
pub fn free_point_by_twist<R: Recorder>(
    sections: &[FreeSection],
    steel: &Steel,
    torque: f64,
    twist: f64,
    rec: &mut R,
) -> FreePoint {
    let shear_modulus = steel.shear_modulus;
    let (mut left, mut depth, torque) = (twist.max(0.0), 0.0, torque.max(1e-3));
    for section in sections {
        let FreeSection { length, polar_moment, .. } = *section;
        let whole = rec.take(Twist { torque, length, shear_modulus, polar_moment });
        if whole > left {
            let free = rec.take(TwistedLength { twist: left, shear_modulus, polar_moment, torque });
            return FreePoint { depth: depth + free, whole: false };
        }
        left -= whole;
        depth += length;
    }
    FreePoint { depth, whole: true }
}

/// Angle by which a torque twists a string down to the stuck point: the turns to hold for a back-off. [rad]
pub fn string_twist<R: Recorder>(sections: &[FreeSection], steel: &Steel, torque: f64, rec: &mut R) -> f64 {
    let shear_modulus = steel.shear_modulus;
    sections
        .iter()
        .map(|section| rec.take(Twist { torque, length: section.length, shear_modulus, polar_moment: section.polar_moment }))
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hoisting::{OwnWeightStretch, TrueTension};
    use crate::{Off, STANDARD_GRAVITY};
    use std::f64::consts::PI;

    const STEEL: Steel = Steel { youngs_modulus: 206.8e9, shear_modulus: 79.3e9, poisson: 0.28, thermal_expansion: 12.4e-6 };
    const SECTIONS: [FreeSection; 3] = [
        FreeSection { length: 2600.0, steel_area: 3.4e-3, polar_moment: 1.187e-5 },
        FreeSection { length: 200.0, steel_area: 8.1e-3, polar_moment: 2.3e-5 },
        FreeSection { length: 180.0, steel_area: 2.8e-2, polar_moment: 1.6e-4 },
    ];

    /// With effective tension or with true tension and Poisson's strain: one strain.
    #[test]
    fn law_strain_by_either_tension() {
        let (inner_area, outer_area, inside_pressure, outside_pressure) = (9.26e-3, 12.67e-3, 4.1e7, 3.3e7);
        let (steel_area, effective_tension, poisson) = (outer_area - inner_area, 6.0e5, 0.28);
        let youngs_modulus = STEEL.youngs_modulus;
        let true_tension = TrueTension { effective_tension, outside_pressure, outer_area, inside_pressure, inner_area }.value();
        let hooke = true_tension / steel_area;
        // Mean of hoop and radial stress, the same all through the wall.
        let around = (inside_pressure * inner_area - outside_pressure * outer_area) / steel_area;
        let strain = (hooke - poisson * 2.0 * around) / youngs_modulus;
        let by_effective = AxialStrain {
            effective_tension,
            poisson,
            inside_pressure,
            inner_area,
            outside_pressure,
            outer_area,
            youngs_modulus,
            steel_area,
        };
        assert!((by_effective.value() / strain - 1.0).abs() < 1e-12);
    }

    /// A full, open-ended string in one mud: section by section it stretches as the formula of its own weight says.
    #[test]
    fn law_own_weight_stretch_is_the_sum_of_strains() {
        let (inner_diameter, outer_diameter): (f64, f64) = (0.1086, 0.127);
        let (inner_area, outer_area) = (PI / 4.0 * inner_diameter.powi(2), PI / 4.0 * outer_diameter.powi(2));
        let (steel_area, length, mud_density, gravity) = (outer_area - inner_area, 3000.0, 1300.0, STANDARD_GRAVITY);
        let linear_mass = 7850.0 * steel_area;
        let parts = 7;
        let part = length / f64::from(parts);
        let sections: Vec<StrainedSection> = (0..parts)
            .map(|at| {
                let middle = (f64::from(at) + 0.5) * part;
                let pressure = mud_density * gravity * middle;
                StrainedSection {
                    length: part,
                    steel_area,
                    inner_area,
                    outer_area,
                    effective_tension: (linear_mass - mud_density * steel_area) * gravity * (length - middle),
                    inside_pressure: pressure,
                    outside_pressure: pressure,
                    temperature: 288.15,
                }
            })
            .collect();
        let summed = string_stretch(&sections, &STEEL, 288.15, &mut Off);
        let Steel { youngs_modulus, poisson, .. } = STEEL;
        let formula = OwnWeightStretch { linear_mass, mud_density, length, steel_area, poisson, youngs_modulus, gravity }.value();
        assert!((summed / formula - 1.0).abs() < 1e-12, "{summed} {formula}");
        let warm: Vec<_> = sections.iter().map(|one| StrainedSection { temperature: 338.15, ..*one }).collect();
        let longer = string_stretch(&warm, &STEEL, 288.15, &mut Off) - summed;
        assert!((longer - 12.4e-6 * 50.0 * length).abs() < 1e-9);
    }

    /// The free point comes back from the stretch and the twist of a string cut anywhere.
    #[test]
    fn law_free_point_comes_back() {
        for stuck in [1.0, 900.0, 2600.5, 2750.0, 2801.0, 2979.0] {
            let (mut left, mut free) = (stuck, Vec::new());
            for section in SECTIONS {
                let length = section.length.min(left);
                free.push(FreeSection { length, ..section });
                left -= length;
            }
            let stretch: f64 = free.iter().map(|one| 2e5 * one.length / (STEEL.youngs_modulus * one.steel_area)).sum();
            let by_pull = free_point_by_pull(&SECTIONS, &STEEL, 2e5, stretch * (1.0 - 1e-12), &mut Off);
            let twist = string_twist(&free, &STEEL, 1.2e4, &mut Off);
            let by_twist = free_point_by_twist(&SECTIONS, &STEEL, 1.2e4, twist * (1.0 - 1e-12), &mut Off);
            for point in [by_pull, by_twist] {
                assert!((point.depth - stuck).abs() < 1e-6 && !point.whole, "{stuck}: {point:?}");
            }
        }
        let all = free_point_by_pull(&SECTIONS, &STEEL, 2e5, 10.0, &mut Off);
        assert!(all.whole && (all.depth - 2980.0).abs() < 1e-9);
    }

    /// The chord of two circles: both the pipe and the face of the cake pass through its ends.
    #[test]
    fn law_contact_width_is_a_chord() {
        for (hole_diameter, clearance, cake) in [(0.2159, 0.0254, 0.002), (0.311, 0.05, 0.006), (0.2159, 0.01, 0.004)] {
            let half = 0.5 * CakeContactWidth { hole_diameter, cake, clearance }.value();
            let (pipe, face) = (0.5 * hole_diameter - clearance, 0.5 * hole_diameter - cake);
            // Distance from the middle of the hole along the line of centres, found from either circle.
            let from_face = (face * face - half * half).sqrt();
            let from_pipe = clearance + (pipe * pipe - half * half).sqrt();
            assert!((from_face - from_pipe).abs() < 1e-12, "{from_face} {from_pipe}");
        }
        assert!(CakeContactWidth { hole_diameter: 0.2159, cake: 0.0, clearance: 0.02 }.value().abs() < 1e-15);
    }
}
