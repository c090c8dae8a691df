//! Where each value of a well comes from: written, with its line and spread, or assumed, with its source.

use crate::build::Assumed;
use crate::entries::{ENTRIES, entry};
use crate::entry::{Entry, Form, Presence};
use crate::sheet::{Held, Sheet, Table, push_joined};
use crate::source::{LARGEST_FILE, Source};
use rigwright_units::Spread;
use std::cmp::Ordering;
use std::ops::Range;
use std::sync::{Arc, LazyLock};

/// Where one value comes from.
#[derive(Clone, Debug)]
pub enum Origin {
    /// Somebody wrote it.
    Given {
        /// The file.
        source: Arc<Source>,
        /// The line, counted from one.
        line: usize,
        /// Where the value stands. [byte]
        span: Range<usize>,
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
    /// All paths, one behind the other.
    paths: String,
    rows: Vec<Row>,
    /// Numbers of the rows in the order of the files.
    in_order: Vec<usize>,
    /// The tables of the rows, in the order in which they are looked for.
    tables: Vec<InTable>,
    /// Where the paths stand that nobody wrote.
    unknown: Vec<Range<usize>>,
}

#[derive(Clone, Debug)]
struct Row {
    /// Where its path stands among the paths.
    path: Range<usize>,
    /// Its row of the entry table.
    entry: Option<&'static Entry>,
    /// Where it stands, as if the rig file began far behind the well file. [byte]
    place: usize,
    origin: Origin,
}

/// Rows of one table that follow each other; there may be more of it elsewhere.
#[derive(Clone, Debug)]
struct InTable {
    /// Where the path of the table stands among the paths.
    path: Range<usize>,
    rows: Range<usize>,
}

impl Provenance {
    /// Where the value of this path comes from.
    pub fn get(&self, path: &str) -> Option<&Origin> {
        let table = above(path);
        let first = self.tables.partition_point(|other| sought(&self.paths, &other.path, table).is_lt());
        let same = self.tables[first..].iter().take_while(|other| sought(&self.paths, &other.path, table).is_eq());
        let mut rows = same.flat_map(|table| &self.rows[table.rows.clone()]);
        let found = rows.find(|row| sought(&self.paths, &row.path, path).is_eq())?;
        Some(&found.origin)
    }

    /// Every value in the order of the files, the well first; assumed ones stand at the head of their table.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Origin)> {
        self.in_order.iter().map(|row| (self.path(*row), &self.rows[*row].origin))
    }

    /// The same with what the entry table says of each.
    pub fn entries(&self) -> impl Iterator<Item = (&str, &'static Entry, &Origin)> {
        self.in_order.iter().filter_map(|row| Some((self.path(*row), self.rows[*row].entry?, &self.rows[*row].origin)))
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
        self.unknown.iter().map(|path| &self.paths[path.clone()])
    }

    pub(crate) fn new(sheet: &Sheet, assumed: Vec<Assumed>) -> Provenance {
        let mut all = Provenance::default();
        all.note_unknown(sheet);
        all.note_written(&sheet.well, false);
        all.note_written(&sheet.rig, true);
        for Assumed { path, text, start } in assumed {
            let (entry, place) = (entry(&path), place(path.starts_with("rig."), start));
            let origin = Origin::Defaulted { text, source: source_of(entry, &path) };
            let path = all.add("", &path);
            all.rows.push(Row { path, entry, place, origin });
            all.note_table(all.rows.len() - 1);
        }
        // The table of a row is looked for before the row: tables are few.
        let Provenance { paths, rows, tables, .. } = &mut all;
        tables.sort_by(|a, b| sought(paths, &a.path, &paths[b.path.clone()]));
        // By file, place, then path: the heads of the two files tell them apart. Rows are large, and stay where they are.
        let mut places: Vec<_> = rows.iter().enumerate().map(|(row, Row { place, .. })| (*place, row)).collect();
        places.sort_unstable();
        for together in places.chunk_by_mut(|a, b| a.0 == b.0) {
            together.sort_unstable_by_key(|(_, row)| &paths[rows[*row].path.clone()]);
        }
        all.in_order = places.into_iter().map(|(_, row)| row).collect();
        all
    }

    /// Notes the table of the rows from this one on.
    fn note_table(&mut self, first: usize) {
        if let Some(Row { path, .. }) = self.rows.get(first) {
            let length = above(&self.paths[path.clone()]).len();
            self.tables.push(InTable { path: path.start..path.start + length, rows: first..self.rows.len() });
        }
    }

    fn path(&self, row: usize) -> &str {
        &self.paths[self.rows[row].path.clone()]
    }

    /// Puts a path behind the others.
    fn add(&mut self, table: &str, key: &str) -> Range<usize> {
        let start = self.paths.len();
        push_joined(&mut self.paths, table, key);
        start..self.paths.len()
    }

    /// Puts down the values of a table and of those below it.
    fn note_written(&mut self, table: &Table, in_rig: bool) {
        let first = self.rows.len();
        for (key, Held { entry, place: at, text, spread, given, .. }) in &table.values {
            let (text, spread) = (text.clone(), *spread);
            let path = self.add(&table.path, key);
            let place = place(in_rig, at.span.start);
            let origin = if *given {
                Origin::Given { line: at.line(), source: at.source.clone(), span: at.span.clone(), text, spread }
            } else {
                Origin::Defaulted { text, source: source_of(Some(*entry), &self.paths[path.clone()]) }
            };
            self.rows.push(Row { path, entry: Some(*entry), place, origin });
        }
        self.note_table(first);
        let tables = table.tables.iter().map(|(_, table)| table);
        for table in tables.chain(table.lists.iter().flat_map(|(_, list)| list)) {
            self.note_written(table, in_rig);
        }
    }

    /// Puts down what nobody wrote and has no honest default.
    fn note_unknown(&mut self, sheet: &Sheet) {
        /// Entries without one: whether they are of the rig, the table in which they stand, and their key.
        static UNKNOWN: LazyLock<Vec<(bool, &str, &str)>> = LazyLock::new(|| {
            let entries = ENTRIES.iter().filter(|entry| entry.presence == Presence::Unknown && entry.form != Form::Table);
            let place = |entry: &'static Entry| {
                let in_rig = entry.path.strip_prefix("rig.");
                let (table, _) = in_rig.unwrap_or(entry.path).rsplit_once('.').unwrap_or_default();
                (in_rig.is_some(), table, entry.key())
            };
            entries.map(place).collect()
        });
        // Those of one table follow each other.
        for together in UNKNOWN.chunk_by(|a, b| (a.0, a.1) == (b.0, b.1)) {
            let [(in_rig, path, _), ..] = together else { continue };
            let tables = tables(if *in_rig { &sheet.rig } else { &sheet.well }, path);
            for (_, _, key) in together {
                for table in tables.iter().filter(|table| table.held(key).is_none()) {
                    let path = self.add(&table.path, key);
                    self.unknown.push(path);
                }
            }
        }
    }
}

/// A place in one of the two files as a place in both.
fn place(in_rig: bool, start: usize) -> usize {
    start + if in_rig { LARGEST_FILE as usize + 1 } else { 0 }
}

/// The path of the table in which an entry stands.
fn above(path: &str) -> &str {
    path.rsplit_once('.').map_or("", |(table, _)| table)
}

/// The order in which paths are looked for: most differ in length, which is told at a glance.
fn sought(paths: &str, at: &Range<usize>, path: &str) -> Ordering {
    at.len().cmp(&path.len()).then_with(|| paths[at.clone()].cmp(path))
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

/// The tables of a file that a path without numbers means: `section[].mud`.
fn tables<'a>(file: &'a Table, path: &str) -> Vec<&'a Table> {
    let mut found = vec![file];
    for word in path.split('.').filter(|word| !word.is_empty()) {
        found = match word.strip_suffix("[]") {
            Some(key) => found.into_iter().flat_map(|table| table.list(key)).collect(),
            None => found.into_iter().filter_map(|table| table.table(word)).collect(),
        };
    }
    found
}
