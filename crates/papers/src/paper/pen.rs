//! Values on paper, in one system of units or in two side by side.

use rigwright_units::{Kind, System, show, show_down, show_up};

/// Prints values.
#[derive(Clone, Copy, Debug)]
pub struct Pen {
    /// The system that comes first.
    pub units: System,
    /// The system in brackets behind it.
    pub beside: Option<System>,
}

impl Pen {
    /// A value as it is.
    pub fn show(&self, value: f64, kind: Kind) -> String {
        self.with(value, kind, show)
    }

    /// A demand: rounded up.
    pub fn up(&self, value: f64, kind: Kind) -> String {
        self.with(value, kind, show_up)
    }

    /// A limit: rounded down.
    pub fn down(&self, value: f64, kind: Kind) -> String {
        self.with(value, kind, show_down)
    }

    fn with(&self, value: f64, kind: Kind, show: fn(f64, Kind, System) -> String) -> String {
        let first = show(value, kind, self.units);
        match self.beside.map(|beside| show(value, kind, beside)) {
            // What both systems write alike, a share or a time, stands once.
            Some(second) if second != first => format!("{first} ({second})"),
            _ => first,
        }
    }

    /// A value that may be unknown.
    pub fn maybe(&self, value: Option<f64>, kind: Kind) -> String {
        value.map_or_else(|| "not given".to_owned(), |value| self.show(value, kind))
    }
}
