//! Closed forms of the pressure at the top of a gas bubble in an even annulus, as textbooks give them: checks for
//! the march in [`super::circulate`], not a replacement. They take the gas pressure at its top (which reads 1 to
//! 8 psi high in a 35 bbl example against the mean) and see one instant: march, and take the maximum.

use crate::{Formula, FormulaRecord, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[<BubblePressureDriller as Formula>::RECORD, <BubblePressureWeighted as Formula>::RECORD];

formula! {
    /// Pressure at the top of a gas bubble while it is circulated out with the old mud (driller's method).
    pub struct BubblePressureDriller;
    slug "bubble-pressure-driller";
    equation "p_X = A/2 + √(A²/4 + MW g p_i z_r h_i), A = p_b - MW g (D - X) - p_w";
    law Homogeneous;
    source "Grace, Advanced Blowout and Well Control, 1994, eq. 4.22, p. 159";
    given {
        /// bottom-hole pressure held
        bottom_pressure "p_b" Pressure must NON_NEGATIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// vertical height from the bottom up to the top of the gas
        height_below "D - X" Depth must NON_NEGATIVE;
        /// pressure that the influx weighs
        influx_weight "p_w" Pressure must NON_NEGATIVE;
        /// pressure at which the influx had its first height
        influx_pressure "p_i" Pressure must NON_NEGATIVE;
        /// first height of the influx
        influx_height "h_i" Depth must NON_NEGATIVE;
        /// compressibility factor times temperature there over the same at the bottom
        expansion "z_r" Ratio must NON_NEGATIVE default 1.0;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// pressure at the top of the gas
    gives "p_X" Pressure;
    value |f| {
        let gradient = f.mud_weight * f.gravity;
        let half = 0.5 * (f.bottom_pressure - gradient * f.height_below - f.influx_weight);
        half + (half * half + gradient * f.influx_pressure * f.expansion * f.influx_height).sqrt()
    }
}

formula! {
    /// Pressure at the top of a gas bubble while kill mud follows it (wait and weight).
    ///
    /// Holds once kill mud has turned the bit: before that take the driller's form, else it reads too high.
    pub struct BubblePressureWeighted;
    slug "bubble-pressure-wait-and-weight";
    equation "p_X = A/2 + √(A²/4 + KMW g p_i z_r h_i), A = p_b - KMW g (D - X) + l (KMW - MW) g - p_w";
    law Homogeneous;
    source "Grace, Advanced Blowout and Well Control, 1994, eq. 4.25, p. 159";
    given {
        /// bottom-hole pressure held
        bottom_pressure "p_b" Pressure must NON_NEGATIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// kill mud weight
        kill_weight "KMW" Density must POSITIVE;
        /// vertical height from the bottom up to the top of the gas
        height_below "D - X" Depth must NON_NEGATIVE;
        /// vertical height of old mud between gas and kill mud
        old_mud_height "l" Depth must NON_NEGATIVE;
        /// pressure that the influx weighs
        influx_weight "p_w" Pressure must NON_NEGATIVE;
        /// pressure at which the influx had its first height
        influx_pressure "p_i" Pressure must NON_NEGATIVE;
        /// first height of the influx
        influx_height "h_i" Depth must NON_NEGATIVE;
        /// compressibility factor times temperature there over the same at the bottom
        expansion "z_r" Ratio must NON_NEGATIVE default 1.0;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// pressure at the top of the gas
    gives "p_X" Pressure;
    value |f| {
        let gradient = f.kill_weight * f.gravity;
        let lighter = f.old_mud_height * (f.kill_weight - f.mud_weight) * f.gravity;
        let half = 0.5 * (f.bottom_pressure - gradient * f.height_below + lighter - f.influx_weight);
        half + (half * half + gradient * f.influx_pressure * f.expansion * f.influx_height).sqrt()
    }
}
