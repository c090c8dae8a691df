//! Changes in the text of a file, entry by entry: comments, order and all that is not changed stay as they are.
//!
//! A change is no check: whoever makes one reads the new text again.

use crate::entries::entry;
use crate::entry::{Entry, Form};
use std::fmt;
use toml_edit::{DocumentMut, Item, TableLike, Value};

/// A change that cannot be made, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault(pub String);

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for Fault {}

/// The rig that the text of a well names, where it can be read.
pub fn named_rig(text: &str) -> Option<String> {
    // Nothing is edited: the plain parser does, and takes half the time.
    let table = toml::de::DeTable::parse(text).ok()?;
    table.get_ref().get("rig")?.get_ref().as_str().map(str::to_owned)
}

/// The text of a well or of a rig with entries set: concrete paths, those of a rig with `rig.` before them, and values as
/// one would write them. An entry that is not written yet is added to its table; one whose new value is empty is taken out.
///
/// # Errors
/// When the text cannot be read, when there is no such entry, or when a value has another form.
pub fn edit<'a>(text: &str, changes: impl IntoIterator<Item = (&'a str, &'a str)>) -> Result<String, Fault> {
    let mut document = document(text)?;
    for (path, value) in changes {
        let entry = entry(path).ok_or_else(|| Fault(format!("there is no entry `{path}`")))?;
        set(document.as_table_mut(), path.strip_prefix("rig.").unwrap_or(path), value, entry)?;
    }
    Ok(document.to_string())
}

/// The text of a well that takes its path from a survey file in place of its own stations.
///
/// # Errors
/// When the text cannot be read.
pub fn with_survey_file(text: &str, file: &str) -> Result<String, Fault> {
    let mut document = document(text)?;
    let survey = document.entry("survey").or_insert_with(toml_edit::table);
    let survey = survey.as_table_like_mut().ok_or_else(|| Fault("`survey` is no table".to_owned()))?;
    survey.remove("stations");
    survey.insert("file", Item::Value(Value::from(file)));
    Ok(document.to_string())
}

pub(crate) fn document(text: &str) -> Result<DocumentMut, Fault> {
    text.parse().map_err(|_| Fault("the syntax of the file is wrong: mend the text first".to_owned()))
}

/// Sets one entry below a table; tables on the way that are not there yet are made.
fn set(table: &mut dyn TableLike, path: &str, value: &str, entry: &Entry) -> Result<(), Fault> {
    let (head, rest) = path.split_once('.').map_or((path, None), |(head, rest)| (head, Some(rest)));
    let (key, index) = match head.split_once('[') {
        Some((key, index)) => {
            let index: usize =
                index.trim_end_matches(']').parse().map_err(|_| Fault(format!("`{path}` names no place in a file")))?;
            (key, Some(index))
        }
        None => (head, None),
    };
    let Some(rest) = rest else {
        if index.is_some() {
            return Err(Fault(format!("`{path}` is a list and is changed in the file itself")));
        }
        if value.trim().is_empty() {
            table.remove(key);
            return Ok(());
        }
        return put(table, key, written(value, entry)?, path);
    };
    if index.is_none() && !table.contains_key(key) && !value.trim().is_empty() {
        table.insert(key, toml_edit::table());
    }
    let missing = || Fault(format!("`{path}` is not written there; change it where the file has it"));
    let item = table.get_mut(key).ok_or_else(missing)?;
    let below: &mut dyn TableLike = match (index, item) {
        (None, item) => item.as_table_like_mut().ok_or_else(missing)?,
        (Some(index), Item::ArrayOfTables(tables)) => tables.get_mut(index).ok_or_else(missing)?,
        (Some(index), Item::Value(Value::Array(array))) => {
            array.get_mut(index).and_then(Value::as_inline_table_mut).ok_or_else(missing)?
        }
        (Some(_), _) => return Err(missing()),
    };
    set(below, rest, value, entry)
}

/// Puts a value, with the comment and the spaces of the one it replaces.
fn put(table: &mut dyn TableLike, key: &str, mut value: Value, path: &str) -> Result<(), Fault> {
    match table.get_mut(key) {
        Some(Item::Value(old)) => {
            *value.decor_mut() = old.decor().clone();
            *old = value;
        }
        Some(_) => return Err(Fault(format!("`{path}` is a table and is changed in the file itself"))),
        None => {
            table.insert(key, Item::Value(value));
        }
    }
    Ok(())
}

/// A value as TOML, by the form of its entry.
fn written(text: &str, entry: &Entry) -> Result<Value, Fault> {
    let text = text.trim();
    let wrong = |wanted: &str| Fault(format!("`{text}` is no value for {}: {wanted} is wanted", entry.path));
    match entry.form {
        Form::Table | Form::Tables | Form::Stations => Err(Fault(format!("{} is changed in the file itself", entry.path))),
        Form::Whole => text.parse::<i64>().map(Value::from).map_err(|_| wrong("a whole number")),
        Form::Date => match text.parse::<Value>() {
            Ok(value) if value.is_datetime() => Ok(value),
            _ => Err(wrong("a day such as 2026-09-14")),
        },
        Form::Pairs { .. } => text.parse::<Value>().map_err(|_| wrong("a table of pairs")),
        Form::Number(_) => match text.parse::<f64>() {
            // Kept as typed: 0.20 does not become 0.2.
            Ok(number) if number.is_finite() => text.parse::<Value>().or_else(|_| Ok(Value::from(number))),
            _ => Ok(Value::from(text)),
        },
        Form::Pair(_) | Form::FormationPressure if text.starts_with('[') => {
            text.parse::<Value>().map_err(|_| wrong("one text with a unit, or two in brackets"))
        }
        Form::Quantity(_) | Form::Text | Form::Choice(_) | Form::Pair(_) | Form::FormationPressure | Form::Nozzles => {
            Ok(Value::from(text.trim_matches('"')))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WELL: &str = "# head\nrig = \"rigs/a.toml\"\n\n[[section]]\nname = \"upper\"\nmud = { weight = \"9 ppg\" } # light\n\n\
                        [[section]]\nname = \"lower\" # last\n[section.mud]\nweight   = \"10 ppg\"   # as mixed\n";

    #[test]
    fn what_is_not_changed_stays() {
        let changes = [("section[0].mud.weight", "9.2 ppg"), ("section[1].mud.weight", "10.5 ppg")];
        let edited = edit(WELL, changes).expect("both are there");
        let wanted = WELL.replace("\"9 ppg\"", "\"9.2 ppg\"").replace("\"10 ppg\"", "\"10.5 ppg\"");
        assert_eq!(edited, wanted);
        assert_eq!(edit(WELL, []).as_deref(), Ok(WELL));
    }

    #[test]
    fn what_is_absent_goes_into_its_own_table() {
        let edited = edit(WELL, [("section[0].tripping.pulling_speed", "60 ft/min"), ("kick.volume", "20 bbl")]).expect("added");
        let read: toml::Table = edited.parse().expect("still TOML");
        let upper = &read["section"][0];
        assert_eq!(upper["name"].as_str(), Some("upper"));
        assert_eq!(upper["tripping"]["pulling_speed"].as_str(), Some("60 ft/min"));
        assert_eq!(read["section"][1]["mud"]["weight"].as_str(), Some("10 ppg"));
        assert_eq!(read["kick"]["volume"].as_str(), Some("20 bbl"));
    }

    #[test]
    fn rejects_what_is_no_entry_or_stands_elsewhere() {
        for path in ["nothing", "section[7].mud.weight", "section[x].mud.weight", "section", "section[0]", "section[0].mud", ""] {
            assert!(edit(WELL, [(path, "9 ppg")]).is_err(), "{path}");
        }
        assert!(edit("a = [", [("elevation", "9 m")]).is_err());
        assert!(edit(WELL, [("rig.line.strung", "many")]).is_err());
    }

    #[test]
    fn a_survey_file_takes_the_place_of_stations() {
        let edited = with_survey_file("[survey]\nstations = [] # none\n", "s.csv").expect("a table");
        assert_eq!(edited, "[survey]\nfile = \"s.csv\"\n");
        assert_eq!(named_rig(WELL).as_deref(), Some("rigs/a.toml"));
    }
}
