//! What is wrong with a file or with what was typed.

use super::{FORMAT, print};
use rigwright_well::Fit;
use rigwright_wellfile::{Finding, Findings, Severity};
use serde::Serialize;

/// What is wrong with the files of a well.
pub fn findings(findings: &Findings) -> String {
    print(&Document {
        format: FORMAT,
        file: &findings.file,
        usable: false,
        well: None,
        rig: None,
        sections: None,
        errors: findings.errors(),
        cautions: findings.cautions(),
        more: findings.more,
        findings: findings.list.iter().map(finding).collect(),
    })
}

/// Files without errors, with what was noticed.
pub fn checked(file: &str, fit: &Fit, cautions: &[Finding]) -> String {
    print(&Document {
        format: FORMAT,
        file,
        usable: true,
        well: Some(&fit.well.name),
        rig: Some(&fit.rig.name),
        sections: Some(fit.well.sections.len()),
        errors: 0,
        cautions: cautions.len(),
        more: 0,
        findings: cautions.iter().map(finding).collect(),
    })
}

/// Something wrong with what was typed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Fault {
    /// What is wrong.
    pub message: String,
    /// What to write instead.
    pub help: Option<String>,
}

/// What is wrong with what was typed.
pub fn faults(faults: &[Fault]) -> String {
    print(&FaultDocument { format: FORMAT, errors: faults })
}

#[derive(Serialize)]
struct FaultDocument<'a> {
    format: u32,
    errors: &'a [Fault],
}

#[derive(Serialize)]
struct Document<'a> {
    format: u32,
    file: &'a str,
    usable: bool,
    well: Option<&'a str>,
    rig: Option<&'a str>,
    sections: Option<usize>,
    errors: usize,
    cautions: usize,
    more: usize,
    findings: Vec<FindingJson<'a>>,
}

#[derive(Serialize)]
struct FindingJson<'a> {
    code: &'static str,
    severity: &'static str,
    message: &'a str,
    help: Option<&'a str>,
    places: Vec<PlaceJson<'a>>,
}

#[derive(Serialize)]
struct PlaceJson<'a> {
    file: &'a str,
    line: usize,
    column: usize,
    text: &'a str,
}

fn finding(finding: &Finding) -> FindingJson<'_> {
    FindingJson {
        code: finding.code,
        severity: match finding.severity {
            Severity::Error => "error",
            Severity::Caution => "caution",
        },
        message: &finding.message,
        help: finding.help.as_deref(),
        places: finding
            .labels
            .iter()
            .map(|label| PlaceJson {
                file: &label.place.source.name,
                line: label.place.line(),
                column: column(&label.place.source.text, label.place.span.start),
                text: &label.text,
            })
            .collect(),
    }
}

/// The column of a byte offset, counted in letters from one.
fn column(text: &str, offset: usize) -> usize {
    let before = text.get(..offset).unwrap_or(text);
    let line = before.rsplit('\n').next().unwrap_or(before);
    1 + line.chars().count()
}
