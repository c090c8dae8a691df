//! Managed pressure: back pressure at surface makes up for friction that stops with the pumps.
//!
//! Pressures are gauge. Holding one depth moves all others: deeper ones are let down, shallower ones are loaded.

use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <PressureWithBackPressure as Formula>::RECORD,
    <BackPressureForAnchor as Formula>::RECORD,
    <ConnectionChange as Formula>::RECORD,
    <BleedOffTime as Formula>::RECORD,
];

formula! {
    /// Pressure at a depth of the annulus: back pressure, column and friction above it.
    pub struct PressureWithBackPressure;
    slug "pressure-with-back-pressure";
    equation "p = p_b + p_h + Δp_a";
    law Homogeneous;
    source "fluid statics and friction";
    given {
        /// back pressure at surface
        back_pressure "p_b" Pressure must NON_NEGATIVE;
        /// hydrostatic pressure of the column
        hydrostatic "p_h" Pressure must NON_NEGATIVE;
        /// friction in the annulus from that depth to surface
        annular_loss "Δp_a" Pressure must NON_NEGATIVE;
    }
    /// pressure at that depth
    gives "p" Pressure;
    value |f| f.back_pressure + f.hydrostatic + f.annular_loss
}

formula! {
    /// Back pressure that holds the pressure of one depth, the anchor, at any rate of the pumps.
    ///
    /// Below nought: the column and its friction alone are above the pressure that was to be held.
    pub struct BackPressureForAnchor;
    slug "back-pressure-for-anchor";
    equation "p_b = p_anchor - p_h - Δp_a";
    law Homogeneous;
    source "fluid statics and friction";
    given {
        /// pressure to be held at the anchor
        target_pressure "p_anchor" Pressure must NON_NEGATIVE;
        /// hydrostatic pressure of the column above the anchor
        hydrostatic "p_h" Pressure must NON_NEGATIVE;
        /// friction in the annulus from the anchor to surface at that rate
        annular_loss "Δp_a" Pressure must NON_NEGATIVE;
    }
    /// back pressure
    gives "p_b" Pressure;
    value |f| f.target_pressure - f.hydrostatic - f.annular_loss
}

formula! {
    /// Change of pressure at a depth when the pumps stop and the anchor is held.
    ///
    /// Above nought over the anchor, below nought under it.
    pub struct ConnectionChange;
    slug "connection-pressure-change";
    equation "Δp = Δp_anchor - Δp_D";
    law Homogeneous;
    source "fluid statics and friction: back pressure replaces the friction above the anchor, the depth loses its own";
    given {
        /// friction from the anchor to surface while pumping
        anchor_loss "Δp_anchor" Pressure must NON_NEGATIVE;
        /// friction from the depth to surface while pumping
        annular_loss "Δp_D" Pressure must NON_NEGATIVE;
    }
    /// change of pressure at the depth
    gives "Δp" Pressure;
    value |f| f.anchor_loss - f.annular_loss
}

formula! {
    /// Time in which back pressure bleeds off: so much mud must get out as pressure had squeezed in.
    ///
    /// Supposes a rigid hole; casing and rock that give way make it a little longer.
    pub struct BleedOffTime;
    slug "bleed-off-time";
    equation "t = c V Δp / q";
    law Homogeneous;
    source "definition of compressibility, and continuity";
    given {
        /// compressibility of the mud
        compressibility "c" Compressibility must NON_NEGATIVE;
        /// volume of mud in the annulus
        volume "V" Volume must NON_NEGATIVE;
        /// fall of pressure
        pressure_drop "Δp" Pressure must NON_NEGATIVE;
        /// flow that gets out
        leak_rate "q" FlowRate must POSITIVE;
    }
    /// time
    gives "t" Time;
    value |f| f.compressibility * f.pressure_drop * (f.volume / f.leak_rate)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_the_anchor_keeps_its_pressure_whatever_the_friction() {
        let (target_pressure, hydrostatic) = (4.6e7, 4.4e7);
        for annular_loss in [0.0, 4e5, 1.9e6] {
            let back_pressure = BackPressureForAnchor { target_pressure, hydrostatic, annular_loss }.value();
            let held = PressureWithBackPressure { back_pressure, hydrostatic, annular_loss }.value();
            assert!((held - target_pressure).abs() < 1e-6);
        }
    }

    #[test]
    fn law_the_anchor_itself_does_not_change() {
        assert!(ConnectionChange { anchor_loss: 2.4e6, annular_loss: 2.4e6 }.value().abs() < 1e-9);
    }
}
