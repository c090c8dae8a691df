//! Checks that compare entries with each other, one file a subject. Each works on what is there and says nothing
//! where something is missing: that has been said already.

mod casing;
mod drilling;
mod floating;
mod formations;
mod hoist;
mod mud;
mod mud_report;
mod rig;
mod sections;
mod string;
mod survey;
mod well;

use crate::finding::Finding;
use crate::report::Report;
use crate::sheet::{At, Sheet};
use rigwright_physics::trajectory::Path;

/// Runs all checks.
pub(crate) fn all(sheet: &Sheet, path: Option<&Path>, report: &mut Report) {
    let (well, rig) = (sheet.well(), sheet.rig());
    let sections = well.list("section");
    well::check(&well, report);
    survey::check(&well, path, report);
    floating::check(&well, &rig, path, report);
    formations::check(&well, path, report);
    sections::check(&sections, report);
    let sea_bed = crate::build::sea_bed(&well);
    for (index, section) in sections.iter().enumerate() {
        let above = &sections[..index];
        mud::check(section, report);
        mud_report::check(section, above, report);
        string::check(section, above, report);
        casing::check(section, above, &rig, sea_bed, report);
        drilling::check(section, above, &rig, report);
    }
    hoist::check(&rig, report);
    rig::check(&rig, report);
}

/// Refuses a name that stands twice in a list.
fn no_twins(tables: &[At<'_>], what: &str, report: &mut Report) {
    for (index, table) in tables.iter().enumerate() {
        let Some(name) = table.text("name") else { continue };
        if let Some(twin) = tables[..index].iter().find(|other| other.text("name") == Some(name)) {
            report.push(
                Finding::error("well::same-name", format!("two {what} are named `{name}`"))
                    .on(table, "name", "this one")
                    .on(twin, "name", "and this one")
                    .help("give each its own name: reviews and papers tell them apart by it"),
            );
        }
    }
}

/// Says which entries are missing in a table, and why they are needed.
fn need(table: &At<'_>, keys: &[&'static str], why: &str, report: &mut Report) {
    let missing: Vec<&str> = keys.iter().copied().filter(|key| table.held(key).is_none() && !table.refused(key)).collect();
    if missing.is_empty() {
        return;
    }
    let names = missing.iter().map(|key| format!("`{key}`")).collect::<Vec<_>>().join(", ");
    let verb = if missing.len() == 1 { "is" } else { "are" };
    let lines = missing.iter().filter_map(|key| {
        let entry = crate::entry(&crate::sheet::join(&table.table.path, key))?;
        Some(format!("{key} = {}  # {}", entry.written_example(), entry.help))
    });
    let help = format!("add, with your values:\n{}", lines.collect::<Vec<_>>().join("\n"));
    let finding = Finding::error("well::missing", format!("{names} {verb} missing: {why}"));
    let is_file = table.head().is_some_and(|head| head.span.is_empty());
    report.push(finding.on(table, "", if is_file { "" } else { "in this table" }).help(help));
}

/// The casing above a section with the smallest drift: what every string of this section passes.
fn tightest<'a>(above: &[At<'a>]) -> Option<(At<'a>, f64)> {
    let casings = above.iter().filter_map(|section| section.table("casing"));
    let drifts = casings.filter_map(|casing| crate::build::casing_drift(&casing).map(|drift| (casing, drift)));
    drifts.min_by(|a, b| a.1.total_cmp(&b.1))
}

/// Whether `a` is more than `b` by more than rounding.
fn more(a: f64, b: f64) -> bool {
    a > b + 1e-9 * b.abs().max(1e-3)
}
