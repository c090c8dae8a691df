//! Where each value of a well comes from: written, with its line and spread, or assumed, with its source.

use crate::build::{Assumed, first_spread};
use crate::entries::{ENTRIES, entry};
use crate::entry::{Entry, Form, Presence};
use crate::sheet::{Sheet, join};
use crate::source::Source;
use rigwright_units::Spread;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Where one value comes from.
#[derive(Clone, Debug)]
pub enum Origin {
    /// Somebody wrote it.
    Given {
        /// The file.
        source: Arc<Source>,
        /// The line, counted from one.
        line: usize,
        /// As it was written.
        text: String,
        /// How sure it is; the first, where an entry holds several numbers.
        spread: Spread,
    },
    /// Nobody wrote it.
    Defaulted {
        /// The value, as somebody could write it.
        text: String,
        /// Where it comes from.
        source: &'static str,
    },
}

/// Where every value comes from, by concrete path: `section[2].mud.weight`, `rig.line.strung`.
#[derive(Clone, Debug, Default)]
pub struct Provenance {
    rows: Vec<(String, Origin)>,
    index: BTreeMap<String, usize>,
    unknown: Vec<String>,
}

impl Provenance {
    /// Where the value of this path comes from.
    pub fn get(&self, path: &str) -> Option<&Origin> {
        self.index.get(path).map(|row| &self.rows[*row].1)
    }

    /// Every value in the order of the files, the well first; assumed ones stand at the head of their table.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Origin)> {
        self.rows.iter().map(|(path, origin)| (path.as_str(), origin))
    }

    /// The assumptions: path, value and source.
    pub fn defaults(&self) -> impl Iterator<Item = (&str, &str, &'static str)> {
        self.rows.iter().filter_map(|(path, origin)| match origin {
            Origin::Defaulted { text, source } => Some((path.as_str(), text.as_str(), *source)),
            Origin::Given { .. } => None,
        })
    }

    /// Paths that nobody wrote and that have no honest default: answers that need them are unknown.
    pub fn unknown(&self) -> impl Iterator<Item = &str> {
        self.unknown.iter().map(String::as_str)
    }

    pub(crate) fn new(sheet: &Sheet, assumed: Vec<Assumed>) -> Provenance {
        // By file, place, then path: the heads of the two files tell them apart.
        let mut rows: Vec<((bool, usize), String, Origin)> = Vec::with_capacity(sheet.values.len() + assumed.len());
        let is_rig = |path: &str| path.starts_with("rig.");
        for (path, held) in &sheet.values {
            let origin = if held.given {
                let (source, line) = (held.place.source.clone(), held.place.line());
                Origin::Given { source, line, text: held.text.clone(), spread: first_spread(&held.spreads) }
            } else {
                Origin::Defaulted { text: held.text.clone(), source: source_of(path) }
            };
            rows.push(((is_rig(path), held.place.span.start), path.clone(), origin));
        }
        for Assumed { path, text } in assumed {
            let table = path.rsplit_once('.').map_or("", |(table, _)| table);
            let start = sheet.tables.get(table).map_or(0, |head| head.span.start);
            let source = source_of(&path);
            rows.push(((is_rig(&path), start), path, Origin::Defaulted { text, source }));
        }
        rows.sort_by(|a, b| a.0.cmp(&b.0).then_with(|| a.1.cmp(&b.1)));
        let rows: Vec<(String, Origin)> = rows.into_iter().map(|(_, path, origin)| (path, origin)).collect();
        let index = rows.iter().enumerate().map(|(row, (path, _))| (path.clone(), row)).collect();
        Provenance { rows, index, unknown: unknown(sheet) }
    }
}

/// The source of the default of a path.
fn source_of(path: &str) -> &'static str {
    match entry(path).map(|entry| entry.presence) {
        Some(Presence::Default { source, .. } | Presence::Computed { source, .. }) => source,
        _ if path == "survey" => "no survey is given",
        // A part's inside diameter, which only drill pipe may leave out.
        _ => "API RP 7G sizes of drill pipe (from memory)",
    }
}

fn unknown(sheet: &Sheet) -> Vec<String> {
    let mut paths = Vec::new();
    for entry in ENTRIES.iter().filter(|entry| entry.presence == Presence::Unknown && entry.form != Form::Table) {
        for table in tables(sheet, entry) {
            let path = join(&table, entry.key());
            if !sheet.values.contains_key(&path) {
                paths.push(path);
            }
        }
    }
    paths
}

/// Concrete paths of the tables in which an entry may stand.
fn tables(sheet: &Sheet, entry: &Entry) -> Vec<String> {
    let mut found = vec![String::new()];
    let Some((parents, _)) = entry.path.rsplit_once('.') else { return found };
    for word in parents.split('.') {
        let key = word.trim_end_matches("[]");
        found = found
            .into_iter()
            .map(|path| join(&path, key))
            .flat_map(|path| match word.ends_with("[]") {
                true => (0..sheet.lists.get(&path).copied().unwrap_or(0)).map(|index| format!("{path}[{index}]")).collect(),
                false => vec![path],
            })
            .collect();
    }
    found.retain(|path| sheet.tables.contains_key(path));
    found
}
