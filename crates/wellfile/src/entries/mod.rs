//! The entry table: everything that a user can write, one row each, by subject in the order in which a file
//! is best written. Starter files, hints, what-if, spreads and the list of assumptions all come from it.

mod casing;
mod control;
mod formation;
mod hoist;
mod mud;
mod mud_report;
mod rig;
mod section;
mod string;
mod well;

use crate::entry::Entry;
use std::collections::HashMap;
use std::sync::LazyLock;

pub(crate) use well::STATION;

const PARTS: [&[Entry]; 14] = [
    well::ROWS,
    control::WELL,
    formation::ROWS,
    section::HEAD,
    mud::ROWS,
    mud_report::ROWS,
    section::ROWS,
    control::SECTION,
    string::ROWS,
    casing::ROWS,
    control::STRING,
    hoist::ROWS,
    rig::ROWS,
    control::RIG,
];

const COUNT: usize = {
    let (mut count, mut part) = (0, 0);
    while part < PARTS.len() {
        count += PARTS[part].len();
        part += 1;
    }
    count
};

/// Every row. Those of the rig file begin with `rig.`.
pub static ENTRIES: &[Entry] = &{
    let mut all = [PARTS[0][0]; COUNT];
    let (mut at, mut part) = (0, 0);
    while part < PARTS.len() {
        let mut row = 0;
        while row < PARTS[part].len() {
            all[at] = PARTS[part][row];
            (at, row) = (at + 1, row + 1);
        }
        part += 1;
    }
    all
};

/// The row of a path, with or without list numbers: `section[2].mud.weight` finds `section[].mud.weight`.
pub fn entry(path: &str) -> Option<&'static Entry> {
    static BY_PATH: LazyLock<HashMap<&str, &Entry>> = LazyLock::new(|| ENTRIES.iter().map(|entry| (entry.path, entry)).collect());
    let mut plain = String::with_capacity(path.len());
    let mut inside = false;
    for part in path.split_inclusive(['[', ']']) {
        let bracket = part.len() - usize::from(part.ends_with(['[', ']']));
        plain.push_str(if inside { &part[bracket..] } else { part });
        inside = part.ends_with('[');
    }
    BY_PATH.get(plain.as_str()).copied()
}
