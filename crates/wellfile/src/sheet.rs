//! What was read, table by table as in the files, each value with its place; and a cursor over it for the checks and for
//! building the model. A value that was not there or not right is simply absent.

use crate::entry::Entry;
use crate::source::Place;
use jiff::civil::Date;
use rigwright_units::Spread;
use std::sync::Arc;

/// A value in SI.
#[derive(Clone, Debug)]
pub(crate) enum Value {
    Number(f64),
    /// As it was written.
    Text,
    Day(Date),
    Ends([f64; 2]),
    Pressures([RockPressure; 2]),
    Pairs(Vec<Pair>),
    Nozzles {
        number: usize,
        flow_area: f64,
    },
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
    pub(crate) entry: &'static Entry,
    pub(crate) value: Value,
    /// Where it stands; for a default, the head of the table that lacks it.
    pub(crate) place: Place,
    /// As it was written.
    pub(crate) text: String,
    /// How sure it is; the first, where it holds several numbers.
    pub(crate) spread: Spread,
    /// Whether the user wrote it; otherwise it is the default of the entry table.
    pub(crate) given: bool,
}

/// Everything that was read.
#[derive(Debug, Default)]
pub(crate) struct Sheet {
    pub(crate) well: Table,
    /// Shared by readings of the same rig.
    pub(crate) rig: Arc<Table>,
    /// The rows of a survey file.
    pub(crate) survey: Option<Vec<Row>>,
}

impl Sheet {
    /// A cursor on the well file.
    pub(crate) fn well(&self) -> At<'_> {
        At { sheet: self, table: &self.well }
    }

    /// A cursor on the rig file.
    pub(crate) fn rig(&self) -> At<'_> {
        At { sheet: self, table: &self.rig }
    }
}

/// What was read of a table. Nothing stands twice under one key.
#[derive(Debug, Default)]
pub(crate) struct Table {
    /// Concrete path; those of the files themselves are `` and `rig`.
    pub(crate) path: String,
    /// Where it begins; `None` only for a file that was not read.
    pub(crate) head: Option<Place>,
    pub(crate) values: Vec<(&'static str, Held)>,
    pub(crate) tables: Vec<(&'static str, Table)>,
    pub(crate) lists: Vec<(&'static str, Vec<Table>)>,
    /// Keys that are written but whose values were refused: not there for the checks, and not missing either.
    pub(crate) refused: Vec<&'static str>,
}

/// What stands under a key: tables are short, and looked through in order.
fn under<'a, T>(rows: &'a [(&'static str, T)], key: &str) -> Option<&'a T> {
    rows.iter().find(|(known, _)| *known == key).map(|(_, found)| found)
}

impl Table {
    /// A table with nothing in it yet.
    pub(crate) fn new(path: String, head: Place) -> Table {
        Table { path, head: Some(head), ..Table::default() }
    }

    pub(crate) fn held(&self, key: &str) -> Option<&Held> {
        under(&self.values, key)
    }

    /// The table of this key.
    pub(crate) fn table(&self, key: &str) -> Option<&Table> {
        under(&self.tables, key)
    }

    /// The tables of a list; none when it is not there.
    pub(crate) fn list(&self, key: &str) -> &[Table] {
        under(&self.lists, key).map_or(&[], Vec::as_slice)
    }

    /// Where a value stands, or else the head of this table.
    pub(crate) fn place(&self, key: &str) -> Option<&Place> {
        self.held(key).map(|held| &held.place).or(self.head.as_ref())
    }
}

/// Joins a path and a key.
pub(crate) fn join(path: &str, key: &str) -> String {
    // Every table and every value has a path: this is several times as quick as `format!`. An index may follow.
    let mut joined = String::with_capacity(path.len() + key.len() + "[10].".len());
    push_joined(&mut joined, path, key);
    joined
}

/// Joins a path and a key at the end of a text.
pub(crate) fn push_joined(text: &mut String, path: &str, key: &str) {
    if !path.is_empty() {
        text.push_str(path);
        text.push('.');
    }
    text.push_str(key);
}

/// A cursor on one table.
#[derive(Clone, Copy, Debug)]
pub(crate) struct At<'a> {
    sheet: &'a Sheet,
    pub(crate) table: &'a Table,
}

impl<'a> At<'a> {
    pub(crate) fn held(&self, key: &str) -> Option<&'a Held> {
        self.table.held(key)
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
        let held = self.held(key)?;
        match held.value {
            Value::Text => Some(&held.text),
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
        self.table.refused.contains(&key)
    }

    /// The table of this key, if it is there.
    pub(crate) fn table(&self, key: &str) -> Option<At<'a>> {
        self.table.table(key).map(|table| At { table, ..*self })
    }

    /// The tables of a list; none when it is not there.
    pub(crate) fn list(&self, key: &str) -> Vec<At<'a>> {
        self.table.list(key).iter().map(|table| At { table, ..*self }).collect()
    }

    /// The head of this table.
    pub(crate) fn head(&self) -> Option<&'a Place> {
        self.table.head.as_ref()
    }

    /// Where a value stands, or else the head of this table.
    pub(crate) fn place(&self, key: &str) -> Option<&'a Place> {
        self.table.place(key)
    }

    /// The text of a value as it was written; empty when it is absent.
    pub(crate) fn written(&self, key: &str) -> &'a str {
        self.held(key).map_or("", |held| &held.text)
    }
}
