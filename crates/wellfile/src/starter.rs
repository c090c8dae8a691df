//! Starter files: a small invented well and rig, commented from the entry table, that read without a finding.
//!
//! Everything required is filled with the examples of the table. What has a default, or is unknown when absent,
//! stands below as a comment, so that a user sees all that there is to say.

use crate::entry::{Entry, Form, Presence};
use crate::tree::{Node, RIG, WELL};
use std::fmt::Write;

/// Comments begin in this column.
const COLUMN: usize = 46;

/// A starter well and the rig it names.
#[derive(Clone, Debug)]
pub struct Starter {
    /// Text of the well file.
    pub well: String,
    /// Text of the rig file.
    pub rig: String,
}

/// The starter files of a well of this name, with the rig in the file `rig_file`, named from the well's folder.
pub fn starter(name: &str, rig_file: &str) -> Starter {
    let mut well = Writer::new(&WELL, vec![("name", quoted(name)), ("rig", quoted(rig_file))]);
    well.line("# A well to begin with: invented, small, and complete enough to review. Put your own figures in.");
    well.preface();
    let mut rig = Writer::new(&RIG, vec![("name", quoted(&format!("Rig of {name}")))]);
    rig.line("# A rig to begin with: invented. Nameplates and the last inspection govern; this file repeats them.");
    rig.preface();
    Starter { well: well.file(), rig: rig.file() }
}

/// What a list or table of the starter holds besides what is required: key and value; the example where the value
/// is empty. Lists have one row for each of their tables.
struct Block {
    path: &'static str,
    with: &'static [(&'static str, &'static str)],
    /// Whether only what is written shows, without the rest as comments.
    terse: bool,
}

const BLOCKS: &[Block] = &[
    Block {
        path: "formation[]",
        with: &[
            ("name", "\"Upper sand\""),
            ("top", "\"0 ft\""),
            ("pore", "\"8.5 ppg\""),
            ("fracture", "[\"11.5 ppg\", \"13.2 ppg\"]"),
        ],
        terse: false,
    },
    Block { path: "formation[]", with: &[("top", ""), ("fracture", "")], terse: true },
    Block { path: "section[]", with: &[], terse: false },
    Block {
        path: "section[].string[]",
        with: &[
            ("part", "\"bit\""),
            ("diameter", ""),
            ("length", "\"1 ft\""),
            ("weight", "\"130 lb/ft\""),
            ("nozzles", "\"3x18\""),
        ],
        terse: true,
    },
    Block {
        path: "section[].string[]",
        with: &[("part", "\"collar\""), ("outside", ""), ("inside", ""), ("length", "")],
        terse: true,
    },
    Block {
        path: "section[].string[]",
        with: &[
            ("part", "\"drill-pipe\""),
            ("outside", "\"5 in\""),
            ("inside", "\"4.276 in\""),
            ("weight", "\"21.9 lb/ft\""),
            ("joint_outside", ""),
            ("joint_inside", ""),
            ("grade", ""),
            ("class", ""),
        ],
        terse: true,
    },
    Block { path: "section[].casing", with: &[("inside", "")], terse: false },
    Block { path: "rig.surface_lines", with: &[("length", ""), ("inside", "")], terse: false },
    Block { path: "rig.drive", with: &[("weight", "")], terse: false },
    Block { path: "rig.preventer[]", with: &[], terse: false },
    Block {
        path: "rig.preventer[]",
        with: &[("name", "\"pipe rams\""), ("kind", "\"pipe-ram\""), ("rating", "\"10000 psi\""), ("closes_on", "")],
        terse: true,
    },
    Block {
        path: "rig.preventer[]",
        with: &[("name", "\"blind-shear rams\""), ("kind", "\"blind-shear-ram\""), ("rating", "\"10000 psi\"")],
        terse: true,
    },
    Block { path: "rig.accumulator", with: &[], terse: false },
];

fn quoted(text: &str) -> String {
    let plain: String = text.chars().filter(|c| !c.is_control()).collect();
    toml::Value::from(plain.trim()).to_string()
}

struct Writer<'a> {
    tree: &'a Node,
    given: Vec<(&'static str, String)>,
    text: String,
}

impl<'a> Writer<'a> {
    fn new(tree: &'a Node, given: Vec<(&'static str, String)>) -> Writer<'a> {
        Writer { tree, given, text: String::new() }
    }

    fn preface(&mut self) {
        self.line("# Every value with a dimension is text with a unit, field or metric: \"10 ppg\", \"1.2 sg\", \"12 1/4 in\".");
        self.line("# A value may say how sure it is: \"9.2 +/- 0.3 ppg\" (two standard deviations) or \"8.8..9.6 ppg\".");
        self.line("# Lines in comment show what else may be said, with the value that is used without them if there is one.");
    }

    fn file(mut self) -> String {
        self.line("");
        let tree = self.tree;
        self.values(tree, None, false);
        self.tables(tree, false);
        self.text
    }

    fn line(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    /// A line with its comment.
    fn noted(&mut self, line: &str, note: &str) {
        let mut text = format!("{line:<COLUMN$}");
        if text.chars().count() > COLUMN {
            text.push(' ');
        }
        let _ = write!(text, "# {note}");
        self.line(&text);
    }

    /// The values of a table; all in comment when the table is.
    fn values(&mut self, node: &Node, block: Option<&Block>, comment: bool) {
        for entry in node.children.iter().filter_map(|child| child.value) {
            let key = entry.key();
            let given =
                self.given.iter().find(|(given, _)| node.table.is_none() && *given == key).map(|(_, value)| value.clone());
            let planned =
                block.and_then(|block| block.with.iter().find(|(with, _)| *with == key)).map(|(_, value)| match *value {
                    "" => entry.written_example(),
                    value => value.to_owned(),
                });
            let written = given.or(planned).or_else(|| (entry.presence == Presence::Required).then(|| entry.written_example()));
            match written {
                Some(value) if !comment => {
                    self.noted(&format!("{key} = {value}"), &note(&Entry { presence: Presence::Required, ..*entry }));
                }
                _ if block.is_some_and(|block| block.terse) => {}
                _ => self.noted(&format!("# {key} = {}", value_in_comment(entry)), &note(entry)),
            }
        }
    }

    fn tables(&mut self, node: &Node, comment: bool) {
        for child in &node.children {
            let Some(table) = child.table else { continue };
            let blocks: Vec<&Block> = BLOCKS.iter().filter(|block| block.path == table.path).collect();
            let absent = comment || (blocks.is_empty() && table.presence != Presence::Required);
            if absent {
                self.table(child, table, None, true);
            } else if blocks.is_empty() {
                self.table(child, table, None, false);
            }
            for block in blocks.into_iter().filter(|_| !absent) {
                self.table(child, table, Some(block), false);
            }
        }
    }

    fn table(&mut self, node: &Node, table: &Entry, block: Option<&Block>, comment: bool) {
        let mark = if comment { "# " } else { "" };
        self.line("");
        let heading = format!("{mark}{}", node.heading());
        match block.is_some_and(|block| block.terse) {
            true => self.line(&heading),
            false => self.noted(&heading, table.help),
        }
        self.values(node, block, comment);
        self.tables(node, comment);
    }
}

fn value_in_comment(entry: &Entry) -> String {
    match entry.presence {
        Presence::Default { text, .. } => Entry { example: text, ..*entry }.written_example(),
        _ => entry.written_example(),
    }
}

fn note(entry: &Entry) -> String {
    let help = match entry.form {
        Form::Choice(words) => format!("{}: {}", entry.help, words.join(", ")),
        _ => entry.help.to_owned(),
    };
    match entry.presence {
        Presence::Required | Presence::Optional => help,
        Presence::Default { source, .. } => format!("{help} (default: {source})"),
        Presence::Computed { text, .. } => format!("{help} (else {text})"),
        Presence::Needed(when) => format!("{help} (needed {when})"),
        Presence::Unknown => format!("{help} (else unknown)"),
    }
}
