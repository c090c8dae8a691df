//! Areas, moments, weights and worn dimensions of pipe.

use crate::field::{FOOT, POUND};
use crate::{Formula, FormulaRecord, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    WallThickness::RECORD,
    WornDiameter::RECORD,
    SteelArea::RECORD,
    SecondMoment::RECORD,
    PolarMoment::RECORD,
    SectionModulus::RECORD,
    PlainEndWeight::RECORD,
    AdjustedWeight::RECORD,
    SteelDisplacement::RECORD,
];

/// Density of pipe steel: 490 lb/ft³, which is 65.5 ppg. [kg/m³]
///
/// *Source*: the constant 2.67 of handbooks for lb/ft from inches squared; API tables reckon with 489.5 or 490.
pub const STEEL_DENSITY: f64 = 490.0 * POUND / (FOOT * FOOT * FOOT);

/// Wall that is left of premium class drill pipe, as a share of the new wall. [-]
///
/// *Source*: API RP 7G, 16th ed. 1998, classification of used drill pipe.
pub const PREMIUM_WALL: f64 = 0.8;

/// Wall that is left of class 2 drill pipe, as a share of the new wall. [-]
///
/// *Source*: API RP 7G, 16th ed. 1998, classification of used drill pipe (from memory).
pub const CLASS_2_WALL: f64 = 0.7;

formula! {
    /// Wall of a pipe.
    pub struct WallThickness;
    slug "wall-thickness";
    equation "t = (D - d)/2";
    law Homogeneous;
    source "geometry";
    given {
        /// outside diameter
        outer_diameter "D" Diameter must NON_NEGATIVE;
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// wall
    gives "t" Diameter;
    value |f| 0.5 * (f.outer_diameter - f.inner_diameter)
}

formula! {
    /// Outside diameter of drill pipe worn evenly on the outside.
    ///
    /// API classes wear off the outside diameter and leave the bore as it is: 0.8 of the wall is left of premium
    /// pipe, 0.7 of class 2.
    pub struct WornDiameter;
    slug "worn-diameter";
    equation "D = d + r (D₀ - d)";
    law Homogeneous;
    source "API RP 7G, 16th ed. 1998, tables 4 and 6";
    given {
        /// outside diameter when new
        outer_diameter "D₀" Diameter must NON_NEGATIVE;
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
        /// wall that is left, as a share of the new wall
        wall_left "r" Fraction must FRACTION valid between(0.55, 1.0);
    }
    /// worn outside diameter
    gives "D" Diameter;
    value |f| f.inner_diameter + f.wall_left * (f.outer_diameter - f.inner_diameter)
}

formula! {
    /// Cross-section of the steel.
    pub struct SteelArea;
    slug "steel-area";
    equation "A = π/4 (D² - d²)";
    law Homogeneous;
    source "geometry";
    given {
        /// outside diameter
        outer_diameter "D" Diameter must NON_NEGATIVE;
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// area of steel
    gives "A" Area;
    value |f| PI / 4.0 * (f.outer_diameter - f.inner_diameter) * (f.outer_diameter + f.inner_diameter)
}

formula! {
    /// Second moment of area of a tube: its stiffness against bending.
    pub struct SecondMoment;
    slug "second-moment-of-area";
    equation "I = π/64 (D⁴ - d⁴)";
    law Homogeneous;
    source "strength of materials";
    given {
        /// outside diameter
        outer_diameter "D" Diameter must NON_NEGATIVE;
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// second moment of area
    gives "I" SecondMoment;
    value |f| PI / 64.0 * (f.outer_diameter.powi(4) - f.inner_diameter.powi(4))
}

formula! {
    /// Polar moment of area of a tube: its stiffness against twisting.
    pub struct PolarMoment;
    slug "polar-moment-of-area";
    equation "J = π/32 (D⁴ - d⁴)";
    law Homogeneous;
    source "strength of materials";
    given {
        /// outside diameter
        outer_diameter "D" Diameter must NON_NEGATIVE;
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// polar moment of area
    gives "J" SecondMoment;
    value |f| PI / 32.0 * (f.outer_diameter.powi(4) - f.inner_diameter.powi(4))
}

formula! {
    /// Section modulus of a tube: bending moment over the stress at its outside.
    ///
    /// At a crossover the larger over the smaller is kept below 5.5 in soft and 3.5 in hard rock (common practice).
    pub struct SectionModulus;
    slug "section-modulus";
    equation "Z = π/32 (D⁴ - d⁴)/D";
    law Homogeneous;
    source "strength of materials";
    given {
        /// outside diameter
        outer_diameter "D" Diameter must at_least(1e-3);
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// section modulus
    gives "Z" SectionModulus;
    value |f| PI / 32.0 * (f.outer_diameter.powi(4) - f.inner_diameter.powi(4)) / f.outer_diameter
}

formula! {
    /// Weight per length of plain tube, as a mass.
    ///
    /// In field units 2.67 (D² - d²) for collars and 10.69 (D - t) t for casing, in lb/ft from inches.
    pub struct PlainEndWeight;
    slug "plain-end-weight";
    equation "m = ρ π/4 (D² - d²)";
    law Homogeneous;
    source "geometry; API Spec 5CT and 5DP (10.69 (D - t) t lb/ft)";
    given {
        /// outside diameter
        outer_diameter "D" Diameter must NON_NEGATIVE;
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
        /// density of steel
        steel_density "ρ" Density must NON_NEGATIVE valid between(7700.0, 8000.0) default STEEL_DENSITY;
    }
    /// plain-end weight per length
    gives "m" LinearMass;
    value |f| f.steel_density * PI / 4.0 * (f.outer_diameter - f.inner_diameter) * (f.outer_diameter + f.inner_diameter)
}

formula! {
    /// Weight per length of drill pipe with upsets and tool joints, as a mass.
    ///
    /// The nominal weight is only a name: 5 in 19.50 lb/ft pipe weighs 20.9 to 23.5 lb/ft with its joints.
    pub struct AdjustedWeight;
    slug "adjusted-weight";
    equation "m = (m₀ L + M_u + M_j)/(L + L_j)";
    law Homogeneous;
    source "API RP 7G, 16th ed. 1998, appendix A (from memory); a balance of mass";
    given {
        /// plain-end weight per length of the body
        plain_end_weight "m₀" LinearMass must NON_NEGATIVE;
        /// length of the body without tool joint
        body_length "L" Depth must at_least(1e-3);
        /// mass that the upsets add
        upset_mass "M_u" Mass must NON_NEGATIVE;
        /// mass of the tool joint, pin and box
        joint_mass "M_j" Mass must NON_NEGATIVE;
        /// length of the tool joint made up
        joint_length "L_j" Depth must NON_NEGATIVE;
    }
    /// weight per length with joints
    gives "m" LinearMass;
    value |f| (f.plain_end_weight * f.body_length + f.upset_mass + f.joint_mass) / (f.body_length + f.joint_length)
}

formula! {
    /// Volume that the steel of an open pipe displaces, from its weight: joints and upsets are in it.
    pub struct SteelDisplacement;
    slug "steel-displacement";
    equation "c = m/ρ";
    law Homogeneous;
    source "definition of density";
    given {
        /// weight per length with joints
        linear_mass "m" LinearMass must NON_NEGATIVE;
        /// density of steel
        steel_density "ρ" Density must at_least(1.0) valid between(7700.0, 8000.0) default STEEL_DENSITY;
    }
    /// volume displaced per length
    gives "c" VolumePerLength;
    value |f| f.linear_mass / f.steel_density
}
