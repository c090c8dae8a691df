//! Changes in the text of a file, entry by entry: comments, order and all that is not changed stay as they are.
//!
//! A change is no check: whoever makes one reads the new text again.

use crate::entries::entry;
use crate::entry::{Entry, Form};
use crate::provenance::{Origin, Provenance};
use std::fmt;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};
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
    let table = DeTable::parse(text).ok()?;
    table.get_ref().get("rig")?.get_ref().as_str().map(str::to_owned)
}

/// The text of a well or of a rig with entries set: concrete paths, those of a rig with `rig.` before them, and values as
/// one would write them. An entry that is not written yet is added to its table; one whose new value is empty is taken out.
///
/// # Errors
/// When the text cannot be read, when there is no such entry, or when a value has another form.
pub fn edit<'a>(text: &str, changes: impl IntoIterator<Item = (&'a str, &'a str)>) -> Result<String, Fault> {
    let changes: Vec<_> = changes.into_iter().collect();
    match replaced(text, &changes) {
        Some(edited) => Ok(edited),
        None => set_all(text, &changes),
    }
}

/// The same for a file that was read as part of a well: where a value stands is known then, and most changes need no parser.
///
/// # Errors
/// Those of [`edit`].
pub fn edit_read<'a>(
    read: &Provenance,
    text: &str,
    changes: impl IntoIterator<Item = (&'a str, &'a str)>,
) -> Result<String, Fault> {
    let changes: Vec<_> = changes.into_iter().collect();
    match spliced(text, &changes, |path| known(read, path, text)) {
        Some(edited) => Ok(edited),
        None => edit(text, changes),
    }
}

/// Where the value of a path stands, if it was read from this text and may be replaced. [byte]
fn known(read: &Provenance, path: &str, text: &str) -> Option<Range<usize>> {
    let Origin::Given { source, span, .. } = read.get(path)? else { return None };
    // Pairs may be a table that is headed.
    let replaceable = !matches!(entry(path)?.form, Form::Table | Form::Tables | Form::Stations | Form::Pairs { .. });
    (replaceable && source.text == text).then(|| span.clone())
}

/// The text with each new value in the place of the old one, where every change replaces a value that stands there. Most
/// do; this takes a third of the time of a document that can be edited, and it keeps every other byte. `None` for all
/// other changes, and faults.
fn replaced(text: &str, changes: &[(&str, &str)]) -> Option<String> {
    let table = DeTable::parse(text).ok()?;
    spliced(text, changes, |path| standing(table.get_ref(), in_file(path), text))
}

/// The text with new values where the old ones stand; `None` where one stands nowhere or is no value of its entry.
fn spliced(text: &str, changes: &[(&str, &str)], stands: impl Fn(&str) -> Option<Range<usize>>) -> Option<String> {
    let piece = |&(path, value): &(&str, &str)| {
        let span = stands(path)?;
        let mut value = written(value, entry(path)?).ok().filter(|_| !value.trim().is_empty())?;
        // The spaces around the old value stay.
        value.decor_mut().clear();
        Some((span, value.to_string()))
    };
    let mut pieces: Vec<(Range<usize>, String)> = changes.iter().map(piece).collect::<Option<_>>()?;
    pieces.sort_by_key(|(span, _)| span.start);
    // Of two changes of one value, the later counts.
    if pieces.windows(2).any(|two| two[0].0.end > two[1].0.start) {
        return None;
    }
    let longer: usize = pieces.iter().map(|(_, value)| value.len()).sum();
    let mut edited = String::with_capacity(text.len() + longer);
    let mut at = 0;
    for (span, value) in pieces {
        edited.push_str(&text[at..span.start]);
        edited.push_str(&value);
        at = span.end;
    }
    edited.push_str(&text[at..]);
    Some(edited)
}

/// Where the value of a path stands below a table, if one does that may be replaced. [byte]
fn standing(table: &DeTable<'_>, path: &str, text: &str) -> Option<Range<usize>> {
    let step = Step::first(path)?;
    let item = table.get(step.key)?;
    let Some(rest) = step.rest else {
        let value = match item.get_ref() {
            // A table that is headed, or made of keys with dots, is no value.
            DeValue::Table(_) => text[item.span()].starts_with('{'),
            DeValue::Array(list) => !list.iter().any(|item| item.get_ref().is_table()),
            _ => true,
        };
        return (value && step.index.is_none()).then(|| item.span());
    };
    let below: &Spanned<DeValue<'_>> = match step.index {
        Some(index) => item.get_ref().as_array()?.get(index)?,
        None => item,
    };
    standing(below.get_ref().as_table()?, rest, text)
}

/// Changes of all sorts, in a document that keeps comments.
fn set_all(text: &str, changes: &[(&str, &str)]) -> Result<String, Fault> {
    let mut document = document(text)?;
    for &(path, value) in changes {
        let entry = entry(path).ok_or_else(|| Fault(format!("there is no entry `{path}`")))?;
        set(document.as_table_mut(), in_file(path), value, entry)?;
    }
    Ok(document.to_string())
}

/// A path as it stands in its file.
fn in_file(path: &str) -> &str {
    path.strip_prefix("rig.").unwrap_or(path)
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

/// The first step of a path: `section[2].mud.weight` has the key `section`, the index 2 and the rest `mud.weight`.
struct Step<'a> {
    key: &'a str,
    index: Option<usize>,
    rest: Option<&'a str>,
}

impl Step<'_> {
    /// `None` when the index is no number.
    fn first(path: &str) -> Option<Step<'_>> {
        let (head, rest) = path.split_once('.').map_or((path, None), |(head, rest)| (head, Some(rest)));
        let (key, index) = match head.split_once('[') {
            Some((key, index)) => (key, Some(index.trim_end_matches(']').parse().ok()?)),
            None => (head, None),
        };
        Some(Step { key, index, rest })
    }
}

/// Sets one entry below a table; tables on the way that are not there yet are made.
fn set(table: &mut dyn TableLike, path: &str, value: &str, entry: &Entry) -> Result<(), Fault> {
    let Step { key, index, rest } = Step::first(path).ok_or_else(|| Fault(format!("`{path}` names no place in a file")))?;
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

    /// Replacing values in the text and setting them in a document give the same text, for all that the examples write.
    #[test]
    fn law_a_replaced_value_is_a_value_set() {
        let root = format!("{}/../../examples", env!("CARGO_MANIFEST_DIR"));
        for well in ["ostrick.toml", "quellmere.toml", "tolvane.toml"] {
            let loaded = crate::read(&format!("{root}/{well}"), None, &crate::Disk).expect("an example reads");
            for file in &loaded.sources[..2] {
                let mut all = Vec::new();
                for (path, entry, origin) in loaded.provenance.entries() {
                    if !matches!(origin, crate::Origin::Given { source, .. } if source.name == file.name) {
                        continue;
                    }
                    let (change, replacing) = ([(path, entry.example)], entry.form != Form::Stations);
                    assert_eq!(replaced(&file.text, &change), set_all(&file.text, &change).ok(), "{path} of {well}");
                    assert_eq!(replaced(&file.text, &change).is_some(), replacing, "{path} of {well}");
                    assert_eq!(edit_read(&loaded.provenance, &file.text, change), edit(&file.text, change), "{path} of {well}");
                    let quick = known(&loaded.provenance, path, &file.text).is_some();
                    assert_eq!(quick, replacing && !matches!(entry.form, Form::Pairs { .. }), "{path} of {well}");
                    all.extend(change.into_iter().filter(|_| replacing));
                }
                all.reverse();
                for changes in all.chunks(7).chain([all.as_slice()]) {
                    assert_eq!(replaced(&file.text, changes), set_all(&file.text, changes).ok(), "{changes:?} of {well}");
                }
                assert!(replaced(&file.text, &all).is_some_and(|text| text != file.text), "{well}");
            }
        }
    }

    #[test]
    fn law_values_are_replaced_wherever_they_may_stand() {
        let texts = [
            "section = [{ mud = { weight = '9 ppg' } }, { mud.weight = \"\"\"9 ppg\"\"\" , name = 'b' }]\nkick.volume = '1 bbl' # é\n",
            "'section' = [\n  { \"mud\".weight=\"9 ppg\"},#one\n  { mud = {weight = [\n1, 2 # two\n] } }\n]\n[kick]\n volume\t=\t1979-05-27\n",
            "[[section]]\nmud.weight = 9_000.0\n[[section]]\n[section.mud]\nweight = { a = 1 }#\n[kick]\nvolume = true\n# end\n",
        ];
        let changes = [("section[1].mud.weight", "10 ppg"), ("kick.volume", " 20 \"bbl\" "), ("section[0].mud.weight", "é\\")];
        for text in texts {
            let edited = replaced(text, &changes).expect("all are values");
            assert_eq!(Ok(edited), set_all(text, &changes));
            assert_eq!(replaced(text, &[]).as_deref(), Some(text));
        }
    }

    /// Line ends, the order of keys and the lack of a last line end are the user's.
    #[test]
    fn law_all_but_the_value_stays_to_the_byte() {
        for (before, after) in [
            ("\u{feff}# a\r\n[kick]\r\nvolume = ", " # b\r\n# c\r\n"),
            ("kick.intensity = 1\nelevation = 2\nkick.volume = ", ""),
            ("a = {\n b = 1,\n c = 2,\n}\nkick.volume\t= ", "\n\n\n[x]"),
        ] {
            let text = |volume: &str| format!("{before}{volume}{after}");
            assert_eq!(edit(&text("'1 bbl'"), [("kick.volume", "20 bbl")]), Ok(text("\"20 bbl\"")));
        }
    }

    /// What replaces no value, or a value twice, is done in a document.
    #[test]
    fn law_other_changes_are_set_in_a_document() {
        let twice = [("section[0].name", "a"), ("section[0].name", "b")];
        assert!(edit(WELL, twice).is_ok_and(|text| text.contains("\"b\"") && !text.contains("\"a\"")));
        let tables = "string = 1\n[[section]]\n[[section.string]]\n[[section]]\nstring.part = 'bit'\n";
        for (text, path, value) in [
            (WELL, "section[0].name", " "),
            (WELL, "section[0].bottom", "9 ft"),
            (WELL, "section[2].name", "c"),
            (tables, "section[0].string", "c"),
            (tables, "section[1].string", "c"),
        ] {
            assert_eq!(replaced(text, &[(path, value)]), None, "{path}");
        }
        assert_eq!(replaced(WELL, &twice), None);
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
