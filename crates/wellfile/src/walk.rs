//! Walks the tree of a TOML file against the entry table: takes what is there, fills in defaults, and finds
//! unknown keys, wrong types and missing entries.

use crate::entries::ENTRIES;
use crate::entry::{Entry, Form, Presence};
use crate::finding::Finding;
use crate::nearest::nearest;
use crate::report::Report;
use crate::sheet::{Table, join};
use crate::source::{Place, Source};
use crate::take::Taker;
use crate::tree::Node;
use std::collections::BTreeSet;
use std::ops::Range;
use std::sync::Arc;
use toml::Spanned;
use toml::de::{DeString, DeTable, DeValue};

/// More tables than any list of a real file.
const LONGEST_LIST: usize = 500;
/// With larger files only the first syntax error is looked for: recovery keeps every one in memory.
const RECOVER_BELOW: usize = 256 << 10;

/// Reads one file, whose paths begin with `prefix`.
pub(crate) fn file(source: &Arc<Source>, tree: &Node, prefix: &str, report: &mut Report) -> Table {
    let (root, errors) = if source.text.len() < RECOVER_BELOW {
        DeTable::parse_recoverable(&source.text)
    } else {
        match DeTable::parse(&source.text) {
            Ok(root) => (root, Vec::new()),
            Err(error) => (Spanned::new(0..0, DeTable::new()), vec![error]),
        }
    };
    let broken = !errors.is_empty();
    let taker = Taker { source, report };
    taker.report.broken |= broken;
    let mut lines = BTreeSet::new();
    for error in errors {
        if taker.report.full() {
            taker.report.more += 1;
            continue;
        }
        // A slip often gives several errors on its line; the first tells most.
        let place = taker.place(error.span().unwrap_or(0..0));
        if lines.insert(place.line()) {
            taker.report.push(syntax(error.message(), &place));
        }
    }
    let mut walk = Walk { taker, broken };
    if !broken && root.get_ref().is_empty() {
        let finding = Finding::error("well::empty-file", "there is nothing in this file").at(&walk.taker.place(0..0), "");
        walk.taker.report.push(finding.help("`rigwright new` writes a commented file to begin with"));
        return Table { path: prefix.to_owned(), ..Table::default() };
    }
    walk.table(tree, prefix.to_owned(), root.get_ref(), 0..0)
}

fn syntax(message: &str, place: &Place) -> Finding {
    let help = match message {
        message if message.contains("duplicate key") => {
            "each key may stand once in a table; `[[section]]` with two brackets begins a further one"
        }
        message if message.contains("string") => "text stands between two `\"` on one line",
        message if message.contains("unclosed table") || message.contains("unclosed array of tables") => {
            "a heading stands alone on its line and is closed: `[mast]`, for a list of tables `[[section]]`"
        }
        message if message.contains("`=`") => "one `=` stands between key and value: `weight = \"10 ppg\"`",
        _ => {
            "a value with a unit is text between quotes, `weight = \"10 ppg\"`; tables are headed `[mast]`, lists of tables `[[section]]`"
        }
    };
    Finding::error("well::syntax", message.to_owned()).at(place, "not valid TOML").help(help)
}

struct Walk<'a> {
    taker: Taker<'a>,
    /// Whether the file has syntax errors: what is missing may then only be unreadable.
    broken: bool,
}

impl Walk<'_> {
    fn table(&mut self, node: &Node, path: String, table: &DeTable<'_>, head: Range<usize>) -> Table {
        let head = self.taker.place(head);
        let mut read = Table::new(path, head.clone());
        read.values.reserve(node.children.len());
        // What a slip of the finger meant is not missing as well.
        let mut meant = Vec::new();
        let mut written = vec![false; node.children.len()];
        for (key, value) in table {
            match node.children.iter().position(|child| child.key == key.get_ref()) {
                Some(child) => {
                    written[child] = true;
                    self.key(&node.children[child], &mut read, key, value);
                }
                None if self.taker.report.full() => self.taker.report.more += 1,
                None if self.broken => {}
                None => meant.extend(self.unknown(node, key)),
            }
        }
        let mut missing: Vec<&'static Entry> = Vec::new();
        for (child, _) in node.children.iter().zip(written).filter(|(_, written)| !written) {
            missing.extend(self.absent(child, &mut read, &head));
        }
        missing.retain(|entry| !meant.contains(&entry.key()));
        if !missing.is_empty() && !self.broken {
            self.taker.report.push(missing_finding(node, &missing, &head));
        }
        read
    }

    /// Reads what stands under one key of the table `read`.
    fn key(&mut self, node: &Node, read: &mut Table, key: &Spanned<DeString<'_>>, value: &Spanned<DeValue<'_>>) {
        match (value.get_ref(), node.table) {
            (DeValue::Table(table), Some(_)) => {
                let path = join(&read.path, node.key);
                if node.is_list() {
                    self.brackets(node, value, "one of a list of tables");
                    let table = self.table(node, format!("{path}[0]"), table, value.span());
                    return read.lists.push((node.key, vec![table]));
                }
                read.tables.push((node.key, self.table(node, path, table, value.span())));
            }
            (DeValue::Array(list), Some(_)) if list.iter().all(|item| item.get_ref().is_table()) && !list.is_empty() => {
                if !node.is_list() {
                    self.brackets(node, value, "one table, not a list");
                }
                if list.len() > LONGEST_LIST {
                    let message = format!("{} tables `{}` are too many", list.len(), node.heading());
                    self.taker.report.push(Finding::error("well::list-length", message).at(&self.taker.place(key.span()), ""));
                    return;
                }
                let path = join(&read.path, node.key);
                let mut items = list.iter().filter_map(|item| item.get_ref().as_table().map(|table| (table, item.span())));
                if node.is_list() {
                    let item = |(index, (table, span))| self.table(node, format!("{path}[{index}]"), table, span);
                    read.lists.push((node.key, items.enumerate().map(item).collect()));
                } else if let Some((table, span)) = items.next() {
                    read.tables.push((node.key, self.table(node, path, table, span)));
                }
            }
            (_, table) => match (node.value, table) {
                (Some(entry), _) => {
                    if let Some(held) = self.taker.take(entry, value) {
                        read.values.push((node.key, held));
                    } else {
                        read.refused.push(node.key);
                    }
                }
                (None, Some(_)) => {
                    self.brackets(node, value, if node.is_list() { "a list of tables" } else { "a table" });
                    read.refused.push(node.key);
                }
                (None, None) => {}
            },
        }
    }

    fn brackets(&mut self, node: &Node, value: &Spanned<DeValue<'_>>, is: &str) {
        let finding = Finding::error("well::wrong-type", format!("`{}` is {is}", node.key))
            .at(&self.taker.place(value.span()), node.table.map_or("", |table| table.help))
            .help(format!("head it `{}`", node.heading()));
        self.taker.report.push(finding);
    }

    /// Reports a key that no entry has; gives the entry's that was probably meant.
    fn unknown(&mut self, node: &Node, key: &Spanned<DeString<'_>>) -> Option<&'static str> {
        let name = key.get_ref().as_ref();
        let keys = || node.children.iter().map(|child| child.key);
        let same = ENTRIES.iter().filter(|entry| entry.key() == name && is_rig(entry) == is_rig_node(node));
        let elsewhere: Vec<String> = same.map(parent_heading).collect();
        let near = nearest(name, keys());
        let help = match (near, elsewhere.as_slice()) {
            (Some(near), _) => format!("did you mean `{near}`?"),
            (None, []) => format!("it takes {}", list(keys())),
            (None, headings) => format!("`{name}` belongs in {}", headings.join(" or ")),
        };
        let shown: String = name.chars().take(60).collect();
        let finding = Finding::error("well::unknown-key", format!("`{shown}` is not an entry of {}", in_words(node)))
            .at(&self.taker.place(key.span()), "nothing reads this")
            .help(help);
        self.taker.report.push(finding);
        near
    }

    /// What follows from an entry that is not written in the table `read`: its default, or that it is missing.
    fn absent(&mut self, node: &Node, read: &mut Table, head: &Place) -> Option<&'static Entry> {
        if let Some(entry) = node.value {
            if entry.presence == Presence::Required {
                return Some(entry);
            }
            read.values.extend(node.usual.as_ref().map(|usual| (node.key, usual.at(head))));
        }
        let table = node.table.filter(|table| table.presence == Presence::Required)?;
        if node.is_list() || node.children.iter().any(required) {
            return Some(table);
        }
        // A table whose entries all have defaults: as if its head stood there with nothing below.
        let mut below = Table::new(join(&read.path, node.key), head.clone());
        for child in &node.children {
            self.absent(child, &mut below, head);
        }
        read.tables.push((node.key, below));
        None
    }
}

fn required(node: &Node) -> bool {
    let here = |entry: Option<&'static Entry>| entry.is_some_and(|entry| entry.presence == Presence::Required);
    here(node.value) || (here(node.table) && (node.is_list() || node.children.iter().any(required)))
}

fn missing_finding(node: &Node, missing: &[&'static Entry], head: &Place) -> Finding {
    let lines: Vec<String> = missing.iter().map(|entry| line(entry)).collect();
    let names = list(missing.iter().map(|entry| entry.key()));
    let verb = if missing.len() == 1 { "is" } else { "are" };
    Finding::error("well::missing", format!("{names} {verb} missing in {}", in_words(node)))
        .at(head, if head.span.is_empty() { "" } else { "in this table" })
        .help(format!("add, with your values:\n{}", lines.join("\n")))
}

/// A line of a file with an entry and its help.
fn line(entry: &Entry) -> String {
    let path = entry.path.strip_prefix("rig.").unwrap_or(entry.path).replace("[]", "");
    match entry.form {
        Form::Table => format!("[{path}]  # {}", entry.help),
        Form::Tables => format!("[[{path}]]  # {}", entry.help),
        _ => format!("{} = {}  # {}", entry.key(), entry.written_example(), entry.help),
    }
}

fn in_words(node: &Node) -> String {
    match node.table {
        Some(_) => format!("`{}`", node.heading()),
        None => "the file".to_owned(),
    }
}

fn list<'a>(names: impl Iterator<Item = &'a str>) -> String {
    names.map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ")
}

fn is_rig(entry: &Entry) -> bool {
    entry.path.starts_with("rig.")
}

fn is_rig_node(node: &Node) -> bool {
    node.table.or(node.value).or_else(|| node.children.iter().find_map(|child| child.table.or(child.value))).is_some_and(is_rig)
}

fn parent_heading(entry: &Entry) -> String {
    let path = entry.path.strip_prefix("rig.").unwrap_or(entry.path);
    let Some((parent, _)) = path.rsplit_once('.') else {
        return "the head of the file, above all tables".to_owned();
    };
    let list = ENTRIES.iter().any(|row| row.form == Form::Tables && row.path.strip_prefix("rig.").unwrap_or(row.path) == parent);
    let plain = parent.replace("[]", "");
    if list { format!("`[[{plain}]]`") } else { format!("`[{plain}]`") }
}
