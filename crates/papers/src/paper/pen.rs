//! Values on paper, in one system of units or in two side by side.

use rigwright_units::{Kind, System, Unit, show, show_down, show_up, unit};

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

    /// A value with so many places behind the point: what is measured more finely than it is planned.
    pub fn places(&self, value: f64, kind: Kind, places: usize) -> String {
        let one = |system: System| format!("{} {}", fixed(value, unit(kind, system), places), unit(kind, system).symbol);
        let first = one(self.units);
        both(first, self.beside.map(one))
    }

    /// The same without its unit.
    pub fn bare_places(&self, value: f64, kind: Kind, places: usize) -> String {
        let one = |system: System| fixed(value, unit(kind, system), places);
        let first = one(self.units);
        both(first, self.beside.map(one))
    }

    /// A value without its unit, which then stands in the head of its column.
    pub fn bare(&self, value: f64, kind: Kind) -> String {
        self.bare_with(value, kind, show)
    }

    /// The same of a demand: rounded up.
    pub fn bare_up(&self, value: f64, kind: Kind) -> String {
        self.bare_with(value, kind, show_up)
    }

    /// The same of a limit: rounded down.
    pub fn bare_down(&self, value: f64, kind: Kind) -> String {
        self.bare_with(value, kind, show_down)
    }

    /// The head of a column whose values stand without their unit.
    pub fn head(&self, words: &str, kind: Kind) -> String {
        let symbol = |system: System| unit(kind, system).symbol;
        match self.beside.map(symbol) {
            Some(second) if second != symbol(self.units) => format!("{words} [{} ({second})]", symbol(self.units)),
            _ => format!("{words} [{}]", symbol(self.units)),
        }
    }

    fn bare_with(&self, value: f64, kind: Kind, show: fn(f64, Kind, System) -> String) -> String {
        let one = |system: System| show(value, kind, system).trim_end_matches(unit(kind, system).symbol).trim().to_owned();
        let first = one(self.units);
        both(first, self.beside.map(one))
    }

    fn with(&self, value: f64, kind: Kind, show: fn(f64, Kind, System) -> String) -> String {
        let first = show(value, kind, self.units);
        both(first, self.beside.map(|beside| show(value, kind, beside)))
    }

    /// A value that may be unknown.
    pub fn maybe(&self, value: Option<f64>, kind: Kind) -> String {
        value.map_or_else(|| "not given".to_owned(), |value| self.show(value, kind))
    }
}

/// A number with so many places; nought has no sign.
fn fixed(value: f64, unit: &Unit, places: usize) -> String {
    let number = format!("{:.places$}", unit.from_si(value));
    if number.bytes().all(|sign| matches!(sign, b'-' | b'0' | b'.')) { number.trim_start_matches('-').to_owned() } else { number }
}

/// A value in two systems; what both write alike, a share or a time, stands once.
fn both(first: String, second: Option<String>) -> String {
    match second {
        Some(second) if second != first => format!("{first} ({second})"),
        _ => first,
    }
}
