//! What can be added to the text of a well: a part of the string from the trade's tables, and a further section.

use crate::edit::{Fault, document};
use rigwright_physics::tubular::{collar_sizes, drill_pipe_sizes, heavy_weight_sizes};
use toml_edit::{ArrayOfTables, InlineTable, Item, Table, TableLike, Value};

/// A part that a yard keeps: entries as they are written, without length, grade, class and what hangs on the joint.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StockPart {
    /// Kind of part, as `part` names it.
    pub part: &'static str,
    /// Its size in words: "5 in, 19.5 lb/ft".
    pub size: String,
    /// Its entries: key and value.
    pub entries: Vec<(&'static str, String)>,
}

/// Parts of the trade's tables, the smallest of each kind first.
///
/// *Source*: drill pipe API RP 7G, 16th ed. 1998, table 1 (from memory); collars API Spec 7; heavy-weight pipe API Spec 7-1
/// (from memory), with the yield strength of the tube that its printed tension and torsion rest on.
pub fn stock_parts() -> Vec<StockPart> {
    let mut all = Vec::new();
    for (outside, nominal, _) in drill_pipe_sizes() {
        let entries = vec![("outside", inches(outside)), ("nominal", format!("{nominal} lb/ft"))];
        all.push(StockPart { part: "drill-pipe", size: format!("{}, {nominal} lb/ft", inches(outside)), entries });
    }
    for (outside, inside, weight, connection) in heavy_weight_sizes() {
        let entries = vec![
            ("outside", inches(outside)),
            ("inside", inches(inside)),
            ("weight", format!("{weight} lb/ft")),
            ("yield", "55 ksi".to_owned()),
            ("connection", connection.to_owned()),
        ];
        all.push(StockPart { part: "heavy-weight", size: format!("{}, {weight} lb/ft", inches(outside)), entries });
    }
    for (outside, inside, weight, connection) in collar_sizes() {
        let entries = vec![
            ("outside", inches(outside)),
            ("inside", inches(inside)),
            ("weight", format!("{weight} lb/ft")),
            ("connection", connection.to_owned()),
        ];
        all.push(StockPart { part: "collar", size: format!("{} x {}", inches(outside), inches(inside)), entries });
    }
    all
}

/// Inches as the trade writes them, in sixteenths where they fit: "4 3/4 in".
fn inches(value: f64) -> String {
    let sixteenths = value * 16.0;
    if (sixteenths - sixteenths.round()).abs() > 1e-9 {
        return format!("{value} in");
    }
    let (mut top, mut bottom) = (sixteenths.round() as u64 % 16, 16);
    while top != 0 && top.is_multiple_of(2) {
        (top, bottom) = (top / 2, bottom / 2);
    }
    match (value.floor(), top) {
        (whole, 0) => format!("{whole} in"),
        (0.0, _) => format!("{top}/{bottom} in"),
        (whole, _) => format!("{whole} {top}/{bottom} in"),
    }
}

/// The text of a well with one more part in the string of a section, before the part of this number, counted from the bit.
///
/// # Errors
/// When the text cannot be read, or when that section lists no parts of its own.
pub fn with_part(text: &str, section: usize, before: usize, entries: &[(&str, &str)]) -> Result<String, Fault> {
    let mut document = document(text)?;
    let none = || Fault("this section lists no parts of its own: it takes the string of a section above".to_owned());
    let string = match document.get_mut("section") {
        Some(Item::ArrayOfTables(sections)) => sections.get_mut(section).and_then(|section| section.get_mut("string")),
        _ => None,
    };
    match string.ok_or_else(none)? {
        Item::ArrayOfTables(parts) => {
            let mut part = Table::new();
            part.decor_mut().set_prefix("\n");
            for (key, value) in entries {
                part.insert(key, Item::Value(Value::from(*value)));
            }
            let mut all: Vec<Table> = parts.iter().cloned().collect();
            all.insert(before.min(all.len()), part);
            *parts = all.into_iter().collect::<ArrayOfTables>();
        }
        Item::Value(Value::Array(parts)) => {
            let part: InlineTable = entries.iter().map(|(key, value)| (*key, Value::from(*value))).collect();
            parts.insert(before.min(parts.len()), part);
        }
        _ => return Err(none()),
    }
    Ok(document.to_string())
}

/// What a further section keeps of the one above it; what was read or run there (casing, slow rates, cuts) stays behind.
const KEPT: &[&str] = &[
    "washout",
    "returns",
    "string",
    "bit",
    "mud",
    "drilling",
    "tripping",
    "cleaning",
    "annulus",
    "sticking",
    "managed_pressure",
];

const COPIED: &str = "\n# A copy of the section above but for name, depth and hole: put your own figures in.\n";

/// The text of a well with a further section below the deepest: its name, where it ends and its hole, with a bit of that
/// size, else a copy of the section above.
///
/// # Errors
/// When the text cannot be read, or has no section yet.
pub fn with_section(text: &str, name: &str, bottom: &str, hole: &str) -> Result<String, Fault> {
    let mut document = document(text)?;
    let none = || Fault("there is no section yet to begin from".to_owned());
    let Some(Item::ArrayOfTables(sections)) = document.get_mut("section") else { return Err(none()) };
    let above = sections.iter().last().ok_or_else(none)?;
    let mut section = Table::new();
    section.decor_mut().set_prefix(COPIED);
    for (key, value) in [("name", name), ("bottom", bottom), ("hole", hole)] {
        section.insert(key, Item::Value(Value::from(value)));
    }
    for key in KEPT {
        if let Some(item) = above.get(key) {
            section.insert(key, freed(item));
        }
    }
    if let Some(bit) = bit_of(&mut section) {
        bit.insert("diameter", Item::Value(Value::from(hole)));
    }
    sections.push(section);
    Ok(document.to_string())
}

/// The bit of a section: the first of its parts, or the one that it puts on the string of another section.
fn bit_of(section: &mut Table) -> Option<&mut dyn TableLike> {
    if section.contains_key("bit") {
        return section.get_mut("bit")?.as_table_like_mut();
    }
    match section.get_mut("string")? {
        Item::ArrayOfTables(parts) => parts.get_mut(0).map(|part| part as &mut dyn TableLike),
        Item::Value(Value::Array(parts)) => parts.get_mut(0)?.as_inline_table_mut().map(|part| part as &mut dyn TableLike),
        _ => None,
    }
}

/// A copy that is free of the place that the table had in the file.
fn loosened(table: &Table) -> Table {
    let mut free = Table::new();
    *free.decor_mut() = table.decor().clone();
    free.set_implicit(table.is_implicit());
    free.set_dotted(table.is_dotted());
    for (key, _) in table {
        if let Some((key, item)) = table.get_key_value(key) {
            free.insert_formatted(key, freed(item));
        }
    }
    free
}

/// A copy of an item, its tables free of their places.
fn freed(item: &Item) -> Item {
    match item {
        Item::Table(table) => Item::Table(loosened(table)),
        Item::ArrayOfTables(tables) => Item::ArrayOfTables(tables.iter().map(loosened).collect()),
        other => other.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WELL: &str = "[[section]]\nname = \"upper\" # first\nhole = \"12 1/4 in\"\nbottom = \"5000 ft\"\n\n[section.mud]\nweight = \"9 ppg\" # light\n\n\
        [[section.string]] # from the bit up\npart = \"bit\"\ndiameter = \"12 1/4 in\" # new\nlength = \"1 ft\"\n\n[[section.string]]\npart = \"drill-pipe\"\n\n\
        [section.casing]\nshoe = \"4990 ft\"\n\n[limits]\na = 1\n";

    #[test]
    fn a_part_stands_where_it_was_put() {
        let text = with_part(WELL, 0, 1, &[("part", "collar"), ("length", "90 ft")]).expect("there is a string");
        assert_eq!(
            text,
            WELL.replace(
                "\n[[section.string]]\npart = \"drill",
                "\n[[section.string]]\npart = \"collar\"\nlength = \"90 ft\"\n\n[[section.string]]\npart = \"drill"
            )
        );
        assert!(with_part(WELL, 1, 0, &[]).is_err());
    }

    #[test]
    fn a_section_follows_the_deepest() {
        let text = with_section(WELL, "lower", "8000 ft", "8 1/2 in").expect("there is one above");
        assert!(text.starts_with(WELL.split("[limits]").next().expect("it is there").trim_end()), "{text}");
        let new = text.split(COPIED).nth(1).expect("it says that it is a copy");
        for line in [
            "name = \"lower\"",
            "hole = \"8 1/2 in\"",
            "part = \"drill-pipe\"",
            "weight = \"9 ppg\" # light",
            "diameter = \"8 1/2 in\"",
        ] {
            assert!(new.contains(line), "{line} in {new}");
        }
        assert!(!new.contains("shoe") && new.contains("[limits]"), "{new}");
        assert!(with_section("name = \"a\"", "b", "1 ft", "1 in").is_err());
    }

    #[test]
    fn inches_as_the_trade_writes_them() {
        for (value, text) in [(5.0, "5 in"), (4.75, "4 3/4 in"), (2.8125, "2 13/16 in"), (0.5, "1/2 in"), (4.276, "4.276 in")] {
            assert_eq!(inches(value), text);
        }
    }

    /// Each part reads: every key is an entry, every value parses.
    #[test]
    fn every_part_of_stock_is_written_as_entries_want_it() {
        for part in stock_parts() {
            let words = crate::entry("section[].string[].part").map(|entry| entry.form);
            assert!(matches!(words, Some(crate::Form::Choice(words)) if words.contains(&part.part)));
            for (key, value) in &part.entries {
                let entry = crate::entry(&format!("section[].string[].{key}")).expect("it is an entry");
                if let Some(kind) = entry.kind() {
                    assert!(rigwright_units::parse(value, kind).is_ok(), "{value}");
                }
            }
        }
    }
}
