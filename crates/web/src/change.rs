//! Changes to files, entry by entry: the same change asks what if, is shown as a difference, and is written back.
//! Comments, order and all that is not changed stay as they are.

use crate::folder::Folder;
use rigwright_wellfile::{Fault, Loaded, named_rig};
use std::collections::BTreeMap;

/// More changes than this at once are not what-if any more but a new file.
const MOST: usize = 200;
/// No value that anyone writes is longer. [byte]
const LONGEST: usize = 400;

/// Changed entries: concrete path and the value as one would write it. At most one a path, in the order of the paths.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Changes(BTreeMap<String, String>);

impl Changes {
    /// Those of a query or a form: keys that begin with `if.`.
    pub(crate) fn from_pairs(pairs: &[(String, String)]) -> Changes {
        let mut changes = Changes::default();
        for (key, value) in pairs {
            if let Some(path) = key.strip_prefix("if.") {
                changes.set(path, value);
            }
        }
        changes
    }

    /// Sets one; more than enough are left out.
    pub(crate) fn set(&mut self, path: &str, value: &str) {
        if self.0.len() < MOST && path.len() <= LONGEST && value.len() <= LONGEST && !value.trim().is_empty() {
            self.0.insert(path.to_owned(), value.trim().to_owned());
        }
    }

    /// Takes one back.
    pub(crate) fn without(&self, path: &str) -> Changes {
        Changes(self.0.iter().filter(|(known, _)| *known != path).map(|(a, b)| (a.clone(), b.clone())).collect())
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub(crate) fn get(&self, path: &str) -> Option<&str> {
        self.0.get(path).map(String::as_str)
    }

    pub(crate) fn iter(&self) -> impl Iterator<Item = (&str, &str)> {
        self.0.iter().map(|(path, value)| (path.as_str(), value.as_str()))
    }

    /// Keeps those for which this holds.
    pub(crate) fn retain(&mut self, keep: impl Fn(&str, &str) -> bool) {
        self.0.retain(|path, value| keep(path, value));
    }
}

/// The files that changes touch, before and after, by tidy name.
#[derive(Clone, Debug, Default)]
pub(crate) struct Edited {
    pub(crate) before: BTreeMap<String, String>,
    pub(crate) after: BTreeMap<String, String>,
}

/// The rig file that the text of a well names, by tidy name.
pub(crate) fn rig_of(well: &str, text: &str) -> Option<String> {
    let rig = named_rig(text)?;
    let beside = match well.rsplit_once('/') {
        Some((folder, _)) => format!("{folder}/{rig}"),
        None => rig,
    };
    Folder::tidy(&beside).ok()
}

/// Makes changes in the files of a well, in memory. Where they were read before, that tells where each value stands.
pub(crate) fn edit(folder: &Folder, well: &str, changes: &Changes, read: Option<&Loaded>) -> Result<Edited, Fault> {
    let mut edited = Edited::default();
    if changes.is_empty() {
        return Ok(edited);
    }
    let fault = |error: std::io::Error| Fault(error.to_string());
    let well = Folder::tidy(well).map_err(fault)?;
    let text = folder.text(&well).map_err(fault)?;
    let in_rig = |path: &str| path.starts_with("rig.");
    let change = |text: &str, rig: bool| {
        let changes = changes.iter().filter(|(path, _)| in_rig(path) == rig);
        match read {
            Some(read) => rigwright_wellfile::edit_read(&read.provenance, text, changes),
            None => rigwright_wellfile::edit(text, changes),
        }
    };
    if changes.iter().any(|(path, _)| in_rig(path)) {
        let rig = rig_of(&well, &text).ok_or_else(|| Fault("the well names no rig that is served".to_owned()))?;
        let text = folder.text(&rig).map_err(fault)?;
        let after = change(&text, true)?;
        edited.after.insert(rig.clone(), after);
        edited.before.insert(rig, text);
    }
    if changes.iter().any(|(path, _)| !in_rig(path)) {
        let after = change(&text, false)?;
        edited.after.insert(well.clone(), after);
        edited.before.insert(well, text);
    }
    Ok(edited)
}

/// One line of a difference.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Line {
    /// In both.
    Same(String),
    /// Only before.
    Out(String),
    /// Only after.
    In(String),
    /// Lines that are alike and not shown.
    Gap(usize),
}

/// The difference of two texts by lines, with a few lines around each change.
pub(crate) fn difference(before: &str, after: &str) -> Vec<Line> {
    const AROUND: usize = 2;
    let diff = similar::TextDiff::from_lines(before, after);
    let mut lines = Vec::new();
    let mut next = 0;
    for group in diff.grouped_ops(AROUND) {
        let start = group.first().map_or(next, |op| op.old_range().start);
        if start > next {
            lines.push(Line::Gap(start - next));
        }
        for op in &group {
            for change in diff.iter_changes(op) {
                let text = change.value().trim_end_matches(['\n', '\r']).to_owned();
                lines.push(match change.tag() {
                    similar::ChangeTag::Equal => Line::Same(text),
                    similar::ChangeTag::Delete => Line::Out(text),
                    similar::ChangeTag::Insert => Line::In(text),
                });
            }
            next = op.old_range().end;
        }
    }
    let rest = before.lines().count().saturating_sub(next);
    if rest > 0 && !lines.is_empty() {
        lines.push(Line::Gap(rest));
    }
    lines
}
