//! Compression at which pipe in a hole buckles. Effective compression counts; the radial clearance is hole less body
//! or less tool joint, over two: say which.
//!
//! Sinusoidal buckling is the limit while rotating (fatigue), helical while sliding (common practice).

use std::f64::consts::PI;

use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    SinusoidalBuckling::RECORD,
    HelicalBuckling::RECORD,
    HelicalBucklingFull::RECORD,
    VerticalBuckling::RECORD,
    CurvedBuckling::RECORD,
];

formula! {
    /// Compression at which pipe in a straight inclined hole begins to snake along the low side.
    pub struct SinusoidalBuckling;
    slug "sinusoidal-buckling";
    equation "F = 2 √(E I w sin α/r)";
    law Homogeneous;
    source "Dawson & Paslay, JPT October 1984; Lyons (ed.), Standard Handbook vol. 1, 1996, p. 735, eq. 4-53";
    given {
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must NON_NEGATIVE;
        /// buoyed weight per length
        buoyed_weight "w" ForcePerLength must NON_NEGATIVE;
        /// inclination of the hole; below 3 to 5 degrees take the vertical formula if it gives more
        inclination "α" Angle must between(0.0, PI) valid between(0.05, 1.6);
        /// radial clearance
        clearance "r" Diameter must at_least(1e-5);
    }
    /// compression
    gives "F" Force;
    value |f| 2.0 * (f.youngs_modulus * f.second_moment * f.buoyed_weight * f.inclination.sin() / f.clearance).sqrt()
}

formula! {
    /// Compression at which pipe in a straight inclined hole winds into a helix, lower end of the band in print.
    pub struct HelicalBuckling;
    slug "helical-buckling";
    equation "F = 2√2 √(E I w sin α/r)";
    law Homogeneous;
    source "Chen, Lin & Cheatham, J. Energy Resources Technology 112 (1990) 88";
    given {
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must NON_NEGATIVE;
        /// buoyed weight per length
        buoyed_weight "w" ForcePerLength must NON_NEGATIVE;
        /// inclination of the hole
        inclination "α" Angle must between(0.0, PI) valid between(0.05, 1.6);
        /// radial clearance
        clearance "r" Diameter must at_least(1e-5);
    }
    /// compression
    gives "F" Force;
    value |f| (8.0 * f.youngs_modulus * f.second_moment * f.buoyed_weight * f.inclination.sin() / f.clearance).sqrt()
}

formula! {
    /// Compression at which the helix is complete, upper end of the band in print.
    pub struct HelicalBucklingFull;
    slug "helical-buckling-full";
    equation "F = 2 (2√2 - 1) √(E I w sin α/r)";
    law Homogeneous;
    source "Wu & Juvkam-Wold, SPE 25503 (1993)";
    given {
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must NON_NEGATIVE;
        /// buoyed weight per length
        buoyed_weight "w" ForcePerLength must NON_NEGATIVE;
        /// inclination of the hole
        inclination "α" Angle must between(0.0, PI) valid between(0.05, 1.6);
        /// radial clearance
        clearance "r" Diameter must at_least(1e-5);
    }
    /// compression
    gives "F" Force;
    value |f| {
        let root = (f.youngs_modulus * f.second_moment * f.buoyed_weight * f.inclination.sin() / f.clearance).sqrt();
        2.0 * (8f64.sqrt() - 1.0) * root
    }
}

formula! {
    /// Compression at which pipe in a vertical hole begins to buckle. A band: 1.6 to 1.94, falling with the length.
    pub struct VerticalBuckling;
    slug "vertical-buckling";
    equation "F = 1.94 (E I w²)^(1/3)";
    law Homogeneous;
    source "Lubinski, Drilling and Production Practice, API 1950 (from memory), as in Lyons, Standard Handbook vol. 1, 1996, eq. 4-51";
    given {
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must NON_NEGATIVE;
        /// buoyed weight per length
        buoyed_weight "w" ForcePerLength must NON_NEGATIVE;
    }
    /// compression
    gives "F" Force;
    value |f| 1.94 * (f.youngs_modulus * f.second_moment * f.buoyed_weight * f.buoyed_weight).cbrt()
}

formula! {
    /// Compression at which pipe in a bend begins to snake: more than in a straight hole where the hole builds.
    pub struct CurvedBuckling;
    slug "curved-buckling";
    equation "F = 2 E I κ/r + √[(2 E I κ/r)² + 4 E I w sin α/r]";
    law Homogeneous;
    source "He & Kyllingstad, SPE 25370 (1993), Mitchell (from memory); Dawson & Paslay at κ = 0";
    given {
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must NON_NEGATIVE;
        /// buoyed weight per length
        buoyed_weight "w" ForcePerLength must NON_NEGATIVE;
        /// inclination of the hole
        inclination "α" Angle must between(0.0, PI) valid between(0.05, 1.6);
        /// curvature, positive where the hole builds
        curvature "κ" Curvature must ANY;
        /// radial clearance
        clearance "r" Diameter must at_least(1e-5);
    }
    /// compression
    gives "F" Force;
    value |f| {
        let stiffness = f.youngs_modulus * f.second_moment / f.clearance;
        let bend = 2.0 * stiffness * f.curvature;
        let lying = 4.0 * stiffness * f.buoyed_weight * f.inclination.sin();
        let root = (bend * bend + lying).sqrt();
        // The sum of a positive root and a negative bend loses digits; the quotient does not.
        if bend >= 0.0 { bend + root } else { lying / (root - bend) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_straight_hole_is_a_bend_without_curvature() {
        let (youngs_modulus, second_moment, buoyed_weight, inclination, clearance) = (2e11, 6e-6, 250.0, 1.0, 0.05);
        let straight = SinusoidalBuckling { youngs_modulus, second_moment, buoyed_weight, inclination, clearance }.value();
        let bent = |curvature: f64| {
            CurvedBuckling { youngs_modulus, second_moment, buoyed_weight, inclination, curvature, clearance }.value()
        };
        assert!((bent(0.0) / straight - 1.0).abs() < 1e-12);
        assert!(bent(1e-3) > straight && bent(-1e-3) < straight && bent(-1e-3) > 0.0);
        assert!((bent(-1e-3) * bent(1e-3) / (straight * straight) - 1.0).abs() < 1e-12);
    }
}
