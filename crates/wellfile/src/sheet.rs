//! What was read, by concrete path (`section[2].mud.weight`), each value with its place; and a cursor over it
//! for the checks and for building the model. A value that was not there or not right is simply absent.

use crate::source::Place;
use jiff::civil::Date;
use rigwright_units::Spread;
use std::collections::{BTreeMap, BTreeSet};

/// A value in SI.
#[derive(Clone, Debug)]
pub(crate) enum Value {
    Number(f64),
    Text(String),
    Day(Date),
    Ends([f64; 2]),
    Pressures([RockPressure; 2]),
    Pairs(Vec<Pair>),
    Nozzles { number: usize, flow_area: f64 },
    Stations(Vec<Row>),
}

/// A pressure in the rock as it was written; it becomes a pressure when its depth is known.
#[derive(Clone, Copy, Debug)]
pub(crate) enum RockPressure {
    /// Equivalent mud weight. [kg/m³]
    Weight(f64),
    /// [Pa/m]
    Gradient(f64),
    /// [Pa]
    Pressure(f64),
}

/// A key with its value.
#[derive(Clone, Debug)]
pub(crate) struct Pair {
    pub(crate) key: f64,
    pub(crate) value: f64,
    pub(crate) place: Place,
}

/// A row of a survey: measured depth, inclination, azimuth.
#[derive(Clone, Debug)]
pub(crate) struct Row {
    pub(crate) values: [f64; 3],
    pub(crate) place: Place,
}

/// A value with where it comes from.
#[derive(Clone, Debug)]
pub(crate) struct Held {
    pub(crate) value: Value,
    /// Where it stands; for a default, the head of the table that lacks it.
    pub(crate) place: Place,
    /// As it was written.
    pub(crate) text: String,
    /// One for each number in it.
    pub(crate) spreads: Vec<Spread>,
    /// Whether the user wrote it; otherwise it is the default of the entry table.
    pub(crate) given: bool,
}

/// Everything that was read.
#[derive(Debug, Default)]
pub(crate) struct Sheet {
    /// Values by concrete path.
    pub(crate) values: BTreeMap<String, Held>,
    /// Heads of tables by concrete path; the files themselves are `` and `rig`.
    pub(crate) tables: BTreeMap<String, Place>,
    /// Lengths of lists by concrete path.
    pub(crate) lists: BTreeMap<String, usize>,
    /// The rows of a survey file.
    pub(crate) survey: Option<Vec<Row>>,
    /// Paths that are written but were refused: not there for the checks, and not missing either.
    pub(crate) refused: BTreeSet<String>,
}

impl Sheet {
    /// A cursor on a whole file: `` for the well, `rig` for the rig.
    pub(crate) fn at(&self, path: &str) -> At<'_> {
        At { sheet: self, path: path.to_owned() }
    }
}

/// Joins a path and a key.
pub(crate) fn join(path: &str, key: &str) -> String {
    if path.is_empty() { key.to_owned() } else { format!("{path}.{key}") }
}

/// A cursor on one table.
#[derive(Clone, Debug)]
pub(crate) struct At<'a> {
    sheet: &'a Sheet,
    pub(crate) path: String,
}

impl<'a> At<'a> {
    pub(crate) fn held(&self, key: &str) -> Option<&'a Held> {
        self.sheet.values.get(&join(&self.path, key))
    }

    /// A number, quantity, share or whole number. [SI]
    pub(crate) fn number(&self, key: &str) -> Option<f64> {
        match self.held(key)?.value {
            Value::Number(number) => Some(number),
            _ => None,
        }
    }

    /// A whole number.
    pub(crate) fn whole(&self, key: &str) -> Option<u32> {
        // The walk has refused anything that is not a whole number in range.
        self.number(key).map(|number| number as u32)
    }

    pub(crate) fn text(&self, key: &str) -> Option<&'a str> {
        match &self.held(key)?.value {
            Value::Text(text) => Some(text),
            _ => None,
        }
    }

    pub(crate) fn day(&self, key: &str) -> Option<Date> {
        match self.held(key)?.value {
            Value::Day(day) => Some(day),
            _ => None,
        }
    }

    pub(crate) fn ends(&self, key: &str) -> Option<[f64; 2]> {
        match self.held(key)?.value {
            Value::Ends(ends) => Some(ends),
            _ => None,
        }
    }

    pub(crate) fn pressures(&self, key: &str) -> Option<[RockPressure; 2]> {
        match self.held(key)?.value {
            Value::Pressures(pressures) => Some(pressures),
            _ => None,
        }
    }

    pub(crate) fn pairs(&self, key: &str) -> Option<&'a [Pair]> {
        match &self.held(key)?.value {
            Value::Pairs(pairs) => Some(pairs),
            _ => None,
        }
    }

    /// The rows of the survey, in this file or its own.
    pub(crate) fn stations(&self) -> Option<&'a [Row]> {
        match self.held("stations").map(|held| &held.value) {
            Some(Value::Stations(rows)) => Some(rows),
            _ => self.sheet.survey.as_deref(),
        }
    }

    /// Number and area of nozzles.
    pub(crate) fn nozzles(&self, key: &str) -> Option<(usize, f64)> {
        match self.held(key)?.value {
            Value::Nozzles { number, flow_area } => Some((number, flow_area)),
            _ => None,
        }
    }

    /// Whether the user wrote it; a value that was refused counts as not written.
    pub(crate) fn given(&self, key: &str) -> bool {
        self.held(key).is_some_and(|held| held.given)
    }

    /// Whether something is written there that was refused.
    pub(crate) fn refused(&self, key: &str) -> bool {
        self.sheet.refused.contains(&join(&self.path, key))
    }

    /// The table of this key, if it is there.
    pub(crate) fn table(&self, key: &str) -> Option<At<'a>> {
        let at = At { sheet: self.sheet, path: join(&self.path, key) };
        self.sheet.tables.contains_key(&at.path).then_some(at)
    }

    /// The tables of a list; none when it is not there.
    pub(crate) fn list(&self, key: &str) -> Vec<At<'a>> {
        let path = join(&self.path, key);
        let count = self.sheet.lists.get(&path).copied().unwrap_or(0);
        (0..count).map(|index| At { sheet: self.sheet, path: format!("{path}[{index}]") }).collect()
    }

    /// The head of this table.
    pub(crate) fn head(&self) -> Option<&'a Place> {
        self.sheet.tables.get(&self.path)
    }

    /// Where a value stands, or else the head of this table.
    pub(crate) fn place(&self, key: &str) -> Option<&'a Place> {
        self.held(key).map(|held| &held.place).or_else(|| self.head())
    }

    /// The text of a value as it was written; empty when it is absent.
    pub(crate) fn written(&self, key: &str) -> &'a str {
        self.held(key).map_or("", |held| &held.text)
    }
}
