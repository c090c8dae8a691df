//! A file by subject: each of its tables with everything that may be written there, what stands there now, and
//! where. A faulty file has subjects too, as long as its syntax holds: it is what a form has to show.

use crate::edit::Fault;
use crate::entry::{Entry, Form};
use crate::tree::{Node, RIG, WELL};
use std::ops::Range;
use toml_edit::{Document, Item, TableLike, Value};

/// A table of a file, or one that may be added to it.
#[derive(Clone, Debug)]
pub struct Subject {
    /// Its path, `section[2].mud`; empty for what stands above all tables; that of a rig file begins with `rig`.
    pub path: String,
    /// What it is.
    pub help: &'static str,
    /// The line where it begins, when it is written.
    pub line: Option<usize>,
    /// What may be written in it, in the order of the entry table.
    pub slots: Vec<Slot>,
}

/// An entry at its place in a file.
#[derive(Clone, Debug)]
pub struct Slot {
    /// The entry.
    pub entry: &'static Entry,
    /// Its concrete path.
    pub path: String,
    /// What is written, as one would type it.
    pub value: Option<String>,
    /// Where it is written, from its key to the end of its value. [byte]
    pub span: Option<Range<usize>>,
}

/// The subjects of a well file, or of a rig file: in the order of the entry table, each table that is written and each
/// that may be added below one that is.
///
/// # Errors
/// When the syntax of the text is wrong.
pub fn subjects(text: &str, rig: bool) -> Result<Vec<Subject>, Fault> {
    let document = Document::parse(text).map_err(|_| Fault("the syntax of the file is wrong: mend the text first".to_owned()))?;
    let mut walk = Walk { text, found: Vec::new() };
    let (node, path) = if rig { (&*RIG, "rig") } else { (&*WELL, "") };
    walk.table(node, Some(document.as_table()), path, Some(1));
    Ok(walk.found)
}

struct Walk<'a> {
    text: &'a str,
    found: Vec<Subject>,
}

impl Walk<'_> {
    fn table(&mut self, node: &Node, table: Option<&dyn TableLike>, path: &str, line: Option<usize>) {
        let below = |key: &str| if path.is_empty() { key.to_owned() } else { format!("{path}.{key}") };
        let item = |child: &Node| table.and_then(|table| table.get(child.key));
        let mut slots = Vec::new();
        for (child, entry) in node.children.iter().filter_map(|child| Some((child, child.value?))) {
            let span = item(child).and_then(Item::span);
            let written = item(child).and_then(Item::as_value);
            // What is longer than a field, or stands as a table, is read and changed in the text.
            if matches!(entry.form, Form::Stations) || (item(child).is_some() && written.is_none()) {
                continue;
            }
            let value = written.map(|value| match value {
                Value::String(text) => text.value().clone(),
                _ => span.clone().and_then(|span| self.text.get(span)).unwrap_or_default().to_owned(),
            });
            let key = table.and_then(|table| table.get_key_value(child.key)).and_then(|(key, _)| key.span());
            let span = span.map(|span| key.map_or(span.start, |key| key.start)..span.end);
            slots.push(Slot { entry, path: below(child.key), value, span });
        }
        let help = node.table.map_or("what stands above all tables", |table| table.help);
        self.found.push(Subject { path: path.to_owned(), help, line, slots });
        for child in node.children.iter().filter(|child| child.table.is_some() && table.is_some()) {
            let (path, item) = (below(child.key), item(child));
            if child.is_list() {
                for (index, (row, line)) in item.map(|item| self.rows(item)).unwrap_or_default().into_iter().enumerate() {
                    self.table(child, Some(row), &format!("{path}[{index}]"), line);
                }
                continue;
            }
            match item {
                None => self.table(child, None, &path, None),
                Some(item) => {
                    let line = item.span().map(|span| self.line(span.start));
                    if let Some(table) = item.as_table_like() {
                        self.table(child, Some(table), &path, line);
                    }
                }
            }
        }
    }

    /// The tables of a list, as blocks or in line.
    fn rows<'i>(&self, item: &'i Item) -> Vec<(&'i dyn TableLike, Option<usize>)> {
        let line = |span: Option<Range<usize>>| span.map(|span| self.line(span.start));
        match item {
            Item::ArrayOfTables(tables) => tables.iter().map(|table| (table as &dyn TableLike, line(table.span()))).collect(),
            Item::Value(Value::Array(array)) => {
                let inline = array.iter().filter_map(Value::as_inline_table);
                inline.map(|table| (table as &dyn TableLike, line(table.span()))).collect()
            }
            _ => Vec::new(),
        }
    }

    fn line(&self, at: usize) -> usize {
        self.text.bytes().take(at).filter(|byte| *byte == b'\n').count() + 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WELL: &str = "name = \"A\"\n[[section]]\nname = \"upper\"\nmud = { weight = \"9 ppg\", readings = { 600 = 50 } }\n\
                        [[section.string]]\npart = \"bit\"\n[[section]]\nname = 3\nstring = \"upper\"\n";

    fn subject<'a>(all: &'a [Subject], path: &str) -> &'a Subject {
        all.iter().find(|subject| subject.path == path).unwrap_or_else(|| panic!("no {path}"))
    }

    fn slot<'a>(subject: &'a Subject, key: &str) -> &'a Slot {
        subject.slots.iter().find(|slot| slot.entry.key() == key).unwrap_or_else(|| panic!("no {key}"))
    }

    #[test]
    fn what_is_written_stands_in_its_slot_with_its_line() {
        let all = subjects(WELL, false).expect("the syntax holds");
        let mud = subject(&all, "section[0].mud");
        let weight = slot(mud, "weight");
        assert_eq!(weight.value.as_deref(), Some("9 ppg"));
        assert_eq!(weight.span.clone().map(|span| &WELL[span]), Some("weight = \"9 ppg\""));
        assert_eq!(slot(mud, "readings").value.as_deref(), Some("{ 600 = 50 }"));
        assert_eq!(slot(mud, "gels").value, None);
        assert_eq!(subject(&all, "section[0].string[0]").line, Some(5));
        // A wrong form shows too; a list that is given by name is a value.
        let second = subject(&all, "section[1]");
        assert_eq!(slot(second, "name").value.as_deref(), Some("3"));
        assert_eq!(slot(second, "string").value.as_deref(), Some("upper"));
        // A table that is absent can be filled, what would lie below it cannot yet.
        assert_eq!(subject(&all, "section[1].mud").line, None);
        assert!(subjects("name = ", false).is_err());
    }

    #[test]
    fn every_path_of_a_slot_is_an_entry() {
        let starter = crate::starter("A", "a-rig.toml");
        for (text, rig) in [(&starter.well, false), (&starter.rig, true)] {
            let all = subjects(text, rig).expect("the starter reads");
            assert!(all.iter().flat_map(|subject| &subject.slots).count() > 50);
            for slot in all.iter().flat_map(|subject| &subject.slots) {
                assert_eq!(crate::entry(&slot.path).map(|entry| entry.path), Some(slot.entry.path));
            }
        }
    }
}
