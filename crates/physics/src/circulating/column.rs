//! Pressure of fluid columns and the densities that stand for pressures.

use crate::{FormulaRecord, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[<Hydrostatic as crate::Formula>::RECORD];

formula! {
    /// Pressure that a still column of one fluid adds over its vertical depth.
    ///
    /// The trade's 0.052 psi/ft per ppg is 12/231 = 0.0519481 rounded up: put gravity at `0.052 psi/ft/ppg`
    /// to get the printed figures of books, which are 0.10 % high.
    pub struct Hydrostatic;
    slug "hydrostatic-pressure";
    equation "p = ρ g h";
    law Homogeneous;
    source "fluid statics; 12/231 from the definitions of the inch, gallon and pound in NIST SP 811";
    given {
        /// mud weight
        density "ρ" Density must NON_NEGATIVE valid between(0.0, 3000.0);
        /// vertical height of the column
        vertical_depth "h" Depth must ANY;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// pressure added by the column
    gives "p" Pressure;
    value |f| f.density * f.gravity * f.vertical_depth
}
