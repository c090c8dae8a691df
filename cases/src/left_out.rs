//! Worked examples that were gathered and do not run, each with its reason. The list says what the program does not do.

use std::path::Path;

use serde::Deserialize;

/// One worked example that does not run under its own name.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeftOut {
    /// Kebab case; no case of the data bears it.
    pub id: String,
    /// What it is about: `pore pressure`, `two-phase flow`.
    pub subject: String,
    /// What is worked out, and where it is printed.
    pub what: String,
    /// Why it does not run.
    pub reason: String,
    /// Cases that hold the same figures under another name.
    #[serde(default)]
    pub runs_as: Vec<String>,
}

/// The form of the list.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct List {
    #[serde(rename = "case", default)]
    cases: Vec<LeftOut>,
}

/// Reads the text of the list.
pub fn parse_left_out(text: &str) -> Result<Vec<LeftOut>, String> {
    let list: List = toml::from_str(text).map_err(|error| format!("left-out.toml: {error}"))?;
    Ok(list.cases)
}

/// Reads the list that lies beside the data.
pub fn left_out() -> Result<Vec<LeftOut>, String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("left-out.toml");
    let text = std::fs::read_to_string(&path).map_err(|error| format!("{}: {error}", path.display()))?;
    parse_left_out(&text)
}
