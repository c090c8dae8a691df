//! Stretch of a string, and how deep it is free.
//!
//! For plain pipe; tool joints make a string 4 to 6 % stiffer (common practice).

use crate::{Formula, FormulaRecord, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[PullStretch::RECORD, OwnWeightStretch::RECORD, FreeLength::RECORD];

/// Young's modulus of steel as handbooks reckon it, 30,000,000 psi. [Pa]
const YOUNGS_MODULUS: f64 = 30e6 * crate::field::PSI;

formula! {
    /// Stretch by a pull on top of the weight.
    pub struct PullStretch;
    slug "pull-stretch";
    equation "e = F L/(E A)";
    law Homogeneous;
    source "Hooke; the 735,000 of RP 7G hides E = 30,000,000 psi and the plain-end weight";
    given {
        /// pull
        pull "F" Force must ANY;
        /// free length
        length "L" Depth must NON_NEGATIVE;
        /// Young's modulus
        youngs_modulus "E" Stress must at_least(1e3) valid between(190e9, 215e9) default YOUNGS_MODULUS;
        /// area of steel of the plain pipe
        steel_area "A" Area must at_least(1e-9);
    }
    /// stretch
    gives "e" Depth;
    value |f| f.pull * f.length / (f.youngs_modulus * f.steel_area)
}

formula! {
    /// Stretch of a full, open-ended string under its own weight in one mud.
    ///
    /// The short cut with the buoyed weight is 9 % high in 10 ppg: it forgets that mud on the end shortens the pipe
    /// all along and that mud around it lengthens it.
    pub struct OwnWeightStretch;
    slug "own-weight-stretch";
    equation "e = [m g - 2 (1 - ν) ρ g A] L²/(2 E A)";
    law Homogeneous;
    source "Hooke with Poisson's strain; in field units RP 7G's L² (65.44 - 1.44 W)/96,250,000 (from memory)";
    given {
        /// weight per length in air
        linear_mass "m" LinearMass must NON_NEGATIVE;
        /// mud weight
        mud_density "ρ" Density must NON_NEGATIVE valid between(0.0, 3000.0);
        /// length
        length "L" Depth must NON_NEGATIVE;
        /// area of steel
        steel_area "A" Area must at_least(1e-9);
        /// Poisson's ratio
        poisson "ν" Ratio must between(0.0, 0.5) valid between(0.27, 0.31) default 0.28;
        /// Young's modulus
        youngs_modulus "E" Stress must at_least(1e3) valid between(190e9, 215e9) default YOUNGS_MODULUS;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// stretch
    gives "e" Depth;
    value |f| {
        let per_length = (f.linear_mass - 2.0 * (1.0 - f.poisson) * f.mud_density * f.steel_area) * f.gravity;
        per_length * f.length * f.length / (2.0 * f.youngs_modulus * f.steel_area)
    }
}

formula! {
    /// Length of pipe that is free, from the stretch of a pull: how deep it is stuck.
    ///
    /// In field units `735,294 e w/P` with w the plain-end weight: the adjusted weight would be a quarter wrong.
    pub struct FreeLength;
    slug "free-length";
    equation "L = E A e/F";
    law Homogeneous;
    source "Hooke; Lapeyrouse, Formulas and Calculations, 2nd ed. 2002";
    given {
        /// stretch
        stretch "e" Depth must NON_NEGATIVE;
        /// pull that made it
        pull "F" Force must at_least(1.0);
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default YOUNGS_MODULUS;
        /// area of steel of the plain pipe
        steel_area "A" Area must NON_NEGATIVE;
    }
    /// free length
    gives "L" Depth;
    value |f| f.youngs_modulus * f.steel_area * f.stretch / f.pull
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_stretch_tells_the_free_length() {
        let (pull, length, youngs_modulus, steel_area) = (1.2e5, 2500.0, YOUNGS_MODULUS, 3.4e-3);
        let stretch = PullStretch { pull, length, youngs_modulus, steel_area }.value();
        let free = FreeLength { stretch, pull, youngs_modulus, steel_area }.value();
        assert!((free - length).abs() < 1e-9);
    }

    /// Own weight stretches half as much as the same weight hung on the end, in air.
    #[test]
    fn law_own_weight_in_air_counts_half() {
        let (linear_mass, length, steel_area) = (26.7, 3000.0, 3.4e-3);
        let youngs_modulus = YOUNGS_MODULUS;
        let own =
            OwnWeightStretch { linear_mass, mud_density: 0.0, length, steel_area, poisson: 0.28, youngs_modulus, gravity: 9.8 };
        let hung = PullStretch { pull: linear_mass * 9.8 * length, length, youngs_modulus, steel_area };
        assert!((own.value() / hung.value() - 0.5).abs() < 1e-12);
    }
}
