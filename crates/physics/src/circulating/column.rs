//! Pressure of fluid columns and the densities that stand for pressures.
//!
//! Heights are vertical, pressures are gauge. Pressure lost to friction adds on the side that the mud flows
//! towards; it belongs to measured length and is turned into a density over vertical depth.

use crate::{Formula, FormulaRecord, Kind, Off, Recorder, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    Hydrostatic::RECORD,
    MudGradient::RECORD,
    GradientPressure::RECORD,
    EquivalentMudWeight::RECORD,
    EquivalentCirculatingDensity::RECORD,
    LevelDrop::RECORD,
];

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

formula! {
    /// Pressure that a still mud adds per vertical length.
    pub struct MudGradient;
    slug "mud-gradient";
    equation "G = ρ g";
    law Homogeneous;
    source "fluid statics; 12/231 from the definitions of the inch, gallon and pound in NIST SP 811";
    given {
        /// mud weight
        density "ρ" Density must NON_NEGATIVE valid between(0.0, 3000.0);
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// pressure gradient of the still mud
    gives "G" PressureGradient;
    value |f| f.density * f.gravity
}

formula! {
    /// Pressure that a column of known gradient adds over its vertical depth.
    pub struct GradientPressure;
    slug "gradient-pressure";
    equation "p = G h";
    law Homogeneous;
    source "fluid statics";
    given {
        /// pressure gradient of the fluid
        gradient "G" PressureGradient must ANY;
        /// vertical height of the column
        vertical_depth "h" Depth must ANY;
    }
    /// pressure added by the column
    gives "p" Pressure;
    value |f| f.gradient * f.vertical_depth
}

formula! {
    /// Mud weight whose still column gives a pressure at a vertical depth.
    pub struct EquivalentMudWeight;
    slug "equivalent-mud-weight";
    equation "ρe = p / (g h)";
    law Homogeneous;
    source "fluid statics";
    given {
        /// pressure at the depth
        pressure "p" Pressure must ANY;
        /// vertical depth from the level of the mud
        vertical_depth "h" Depth must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// equivalent mud weight
    gives "ρe" Density;
    value |f| f.pressure / (f.gravity * f.vertical_depth)
}

formula! {
    /// Equivalent circulating density: mud weight with the annular loss above the depth added as a density.
    ///
    /// The loss is what friction takes between the depth and the surface, back pressure included; the depth is vertical.
    pub struct EquivalentCirculatingDensity;
    slug "equivalent-circulating-density";
    equation "ECD = ρ + Δp / (g h)";
    law Homogeneous;
    source "API RP 13D, 5th ed. 2006 (from memory); Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, ch. 1";
    given {
        /// weight of the mud in the annulus, cuttings included
        density "ρ" Density must NON_NEGATIVE valid between(0.0, 3000.0);
        /// annular loss from the depth to surface; negative for swab
        annular_loss "Δp" Pressure must ANY;
        /// vertical depth
        vertical_depth "h" Depth must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// equivalent circulating density
    gives "ECD" Density;
    value |f| f.density + f.annular_loss / (f.gravity * f.vertical_depth)
}

formula! {
    /// How far the mud level falls when a volume is lost and cannot be filled.
    pub struct LevelDrop;
    slug "level-drop";
    equation "h = V / c";
    law Homogeneous;
    source "volume balance";
    given {
        /// volume lost
        volume "V" Volume must NON_NEGATIVE;
        /// capacity over which the level falls: of pipe and annulus together when it falls in both
        capacity "c" VolumePerLength must POSITIVE;
    }
    /// fall of the level along the hole
    gives "h" Depth;
    value |f| f.volume / f.capacity
}

/// A fluid over a vertical height of the hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Density. [kg/m³]
    pub density: f64,
    /// Vertical height. [m]
    pub height: f64,
}

/// Pressure that still fluids, one on the other, add from the top of the first to the bottom of the last. [Pa]
pub fn column_pressure<R: Recorder>(layers: &[Layer], gravity: f64, rec: &mut R) -> f64 {
    let pressure = |layer: &Layer| Hydrostatic { density: layer.density, vertical_depth: layer.height, gravity };
    let heaviest = if R::ON { heaviest(layers) } else { None };
    let mut total = 0.0;
    for (at, layer) in layers.iter().enumerate() {
        let in_full = at == 0 || at + 1 == layers.len() || Some(at) == heaviest;
        total += if in_full { rec.take(pressure(layer)) } else { Off.take(pressure(layer)) };
    }
    if layers.len() > 1 {
        rec.table("column", COLUMN, || {
            layers.iter().map(|layer| vec![layer.density, layer.height, pressure(layer).value()]).collect()
        });
        rec.note(|| "the pressures of the fluids add up".to_owned());
    }
    total
}

const COLUMN: &[(&str, Kind)] = &[("density", Kind::Density), ("height", Kind::Depth), ("pressure", Kind::Pressure)];

/// The layer that adds the most.
fn heaviest(layers: &[Layer]) -> Option<usize> {
    let weight = |at: &usize| layers[*at].density * layers[*at].height;
    (0..layers.len()).max_by(|a, b| weight(a).total_cmp(&weight(b)))
}
