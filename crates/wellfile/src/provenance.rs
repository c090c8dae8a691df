//! Where each value of a well comes from: written, with its line and spread, or assumed, with its source.

use crate::build::Assumed;
use crate::entries::{ENTRIES, entry};
use crate::entry::{Entry, Form, Presence};
use crate::sheet::{Held, Sheet, Table, join};
use crate::source::Source;
use rigwright_units::Spread;
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
    /// Numbers of the rows in the order of their paths.
    by_path: Vec<usize>,
    unknown: Vec<String>,
}

impl Provenance {
    /// Where the value of this path comes from.
    pub fn get(&self, path: &str) -> Option<&Origin> {
        let found = self.by_path.binary_search_by(|row| self.rows[*row].0.as_str().cmp(path)).ok()?;
        Some(&self.rows[self.by_path[found]].1)
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

    pub(crate) fn new(sheet: Sheet, assumed: Vec<Assumed>) -> Provenance {
        let unknown = unknown(&sheet);
        // By file, place, then path: the heads of the two files tell them apart.
        let mut rows: Vec<((bool, usize), String, Origin)> = Vec::new();
        written(sheet.well, false, &mut rows);
        written(sheet.rig, true, &mut rows);
        for Assumed { path, text, start } in assumed {
            let source = source_of(&path);
            rows.push(((path.starts_with("rig."), start), path, Origin::Defaulted { text, source }));
        }
        rows.sort_by(|a, b| a.0.cmp(&b.0).then_with(|| a.1.cmp(&b.1)));
        let rows: Vec<(String, Origin)> = rows.into_iter().map(|(_, path, origin)| (path, origin)).collect();
        let mut by_path: Vec<usize> = (0..rows.len()).collect();
        by_path.sort_by(|a, b| rows[*a].0.cmp(&rows[*b].0));
        Provenance { rows, by_path, unknown }
    }
}

/// Puts down the values of a table and of those below it.
fn written(table: Table, in_rig: bool, rows: &mut Vec<((bool, usize), String, Origin)>) {
    for (key, Held { place, text, spread, given, .. }) in table.values {
        let path = join(&table.path, key);
        let start = place.span.start;
        let origin = if given {
            Origin::Given { line: place.line(), source: place.source, text, spread }
        } else {
            Origin::Defaulted { text, source: source_of(&path) }
        };
        rows.push(((in_rig, start), path, origin));
    }
    let tables = table.tables.into_iter().map(|(_, table)| table);
    for table in tables.chain(table.lists.into_iter().flat_map(|(_, list)| list)) {
        written(table, in_rig, rows);
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
        let lacking = tables(sheet, entry).into_iter().filter(|table| table.held(entry.key()).is_none());
        paths.extend(lacking.map(|table| join(&table.path, entry.key())));
    }
    paths
}

/// The tables in which an entry may stand.
fn tables<'a>(sheet: &'a Sheet, entry: &Entry) -> Vec<&'a Table> {
    let (file, path) = entry.path.strip_prefix("rig.").map_or((&sheet.well, entry.path), |path| (&sheet.rig, path));
    let mut found = vec![file];
    let Some((parents, _)) = path.rsplit_once('.') else { return found };
    for word in parents.split('.') {
        found = match word.strip_suffix("[]") {
            Some(key) => found.into_iter().flat_map(|table| table.list(key)).collect(),
            None => found.into_iter().filter_map(|table| table.table(word)).collect(),
        };
    }
    found
}
