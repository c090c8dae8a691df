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
    rows: Vec<Row>,
    /// Numbers of the rows in the order of their paths.
    by_path: Vec<usize>,
    unknown: Vec<String>,
}

#[derive(Clone, Debug)]
struct Row {
    path: String,
    /// Its row of the entry table.
    entry: Option<&'static Entry>,
    /// Whether it stands in the rig file, and where. [byte]
    place: (bool, usize),
    origin: Origin,
}

impl Provenance {
    /// Where the value of this path comes from.
    pub fn get(&self, path: &str) -> Option<&Origin> {
        let found = self.by_path.binary_search_by(|row| self.rows[*row].path.as_str().cmp(path)).ok()?;
        Some(&self.rows[self.by_path[found]].origin)
    }

    /// Every value in the order of the files, the well first; assumed ones stand at the head of their table.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Origin)> {
        self.rows.iter().map(|row| (row.path.as_str(), &row.origin))
    }

    /// The same with what the entry table says of each.
    pub fn entries(&self) -> impl Iterator<Item = (&str, &'static Entry, &Origin)> {
        self.rows.iter().filter_map(|row| Some((row.path.as_str(), row.entry?, &row.origin)))
    }

    /// The assumptions: path, value and source.
    pub fn defaults(&self) -> impl Iterator<Item = (&str, &str, &'static str)> {
        self.iter().filter_map(|(path, origin)| match origin {
            Origin::Defaulted { text, source } => Some((path, text.as_str(), *source)),
            Origin::Given { .. } => None,
        })
    }

    /// Paths that nobody wrote and that have no honest default: answers that need them are unknown.
    pub fn unknown(&self) -> impl Iterator<Item = &str> {
        self.unknown.iter().map(String::as_str)
    }

    pub(crate) fn new(sheet: Sheet, assumed: Vec<Assumed>) -> Provenance {
        let unknown = unknown(&sheet);
        let mut rows = Vec::new();
        written(sheet.well, false, &mut rows);
        written(sheet.rig, true, &mut rows);
        for Assumed { path, text, start } in assumed {
            let (entry, place) = (entry(&path), (path.starts_with("rig."), start));
            let origin = Origin::Defaulted { text, source: source_of(entry, &path) };
            rows.push(Row { path, entry, place, origin });
        }
        // By file, place, then path: the heads of the two files tell them apart.
        rows.sort_by(|a, b| a.place.cmp(&b.place).then_with(|| a.path.cmp(&b.path)));
        let mut by_path: Vec<usize> = (0..rows.len()).collect();
        by_path.sort_by(|a, b| rows[*a].path.cmp(&rows[*b].path));
        Provenance { rows, by_path, unknown }
    }
}

/// Puts down the values of a table and of those below it.
fn written(table: Table, in_rig: bool, rows: &mut Vec<Row>) {
    for (key, Held { entry, place: at, text, spread, given, .. }) in table.values {
        let path = join(&table.path, key);
        let place = (in_rig, at.span.start);
        let origin = if given {
            Origin::Given { line: at.line(), source: at.source, text, spread }
        } else {
            Origin::Defaulted { text, source: source_of(Some(entry), &path) }
        };
        rows.push(Row { path, entry: Some(entry), place, origin });
    }
    let tables = table.tables.into_iter().map(|(_, table)| table);
    for table in tables.chain(table.lists.into_iter().flat_map(|(_, list)| list)) {
        written(table, in_rig, rows);
    }
}

/// The source of the default of a path.
fn source_of(entry: Option<&Entry>, path: &str) -> &'static str {
    match entry.map(|entry| entry.presence) {
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
