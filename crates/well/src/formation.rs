//! What the rock holds and bears.

pub use rigwright_physics::circulating::temperature::rock::Rock;

/// A layer of rock. Depths are vertical.
#[derive(Clone, Debug, PartialEq)]
pub struct Formation {
    /// Name of the layer.
    pub name: String,
    /// Vertical depth of the top. [m]
    pub top: f64,
    /// Vertical depth of the base: the next top, or the end of the table. [m]
    pub base: f64,
    /// Kind of rock, as the user writes it.
    pub rock: Option<String>,
    /// Pore pressure at top and base. [Pa]
    pub pore: [f64; 2],
    /// Pressure that opens the rock, at top and base; `None` when nobody knows. [Pa]
    pub fracture: Option<[f64; 2]>,
    /// Pressure below which the wall caves in, at top and base. [Pa]
    pub collapse: Option<[f64; 2]>,
    /// Fluid expected in the pores, as the user writes it.
    pub fluid: Option<String>,
}

impl Formation {
    fn between(&self, ends: [f64; 2], vertical_depth: f64) -> f64 {
        let share = ((vertical_depth - self.top) / (self.base - self.top)).clamp(0.0, 1.0);
        ends[0] + (ends[1] - ends[0]) * share
    }

    /// Pore pressure at a vertical depth, straight between top and base. [Pa]
    pub fn pore_at(&self, vertical_depth: f64) -> f64 {
        self.between(self.pore, vertical_depth)
    }

    /// Fracture pressure at a vertical depth. [Pa]
    pub fn fracture_at(&self, vertical_depth: f64) -> Option<f64> {
        self.fracture.map(|ends| self.between(ends, vertical_depth))
    }

    /// Collapse pressure at a vertical depth. [Pa]
    pub fn collapse_at(&self, vertical_depth: f64) -> Option<f64> {
        self.collapse.map(|ends| self.between(ends, vertical_depth))
    }
}

/// Temperature of the undisturbed rock: straight with vertical depth below ground or sea bed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Geotherm {
    /// At ground level or sea bed. [K]
    pub surface: f64,
    /// Growth with vertical depth. [K/m]
    pub gradient: f64,
}

impl Geotherm {
    /// Temperature at a vertical depth below the datum, which stands `start` above the ground or sea bed. [K]
    pub fn at(&self, vertical_depth: f64, start: f64) -> f64 {
        self.surface + self.gradient * (vertical_depth - start).max(0.0)
    }
}

/// What the temperature of circulating mud rests on, beside the mud.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heat {
    /// The rock, as heat sees it.
    pub rock: Rock,
    /// For how long the mud has circulated. [s]
    pub circulated: f64,
    /// Whether heat of friction is counted.
    pub friction: bool,
}
