//! The drill string: what each part needs, whether it fits the hole, and the reference to another section's string.

use super::{more, need, tightest};
use crate::build::{casing_inside, part_inside, part_kind, parts, section_top};
use crate::finding::Finding;
use crate::nearest::nearest;
use crate::report::Report;
use crate::sheet::At;
use rigwright_physics::tubular::{connections, grades, thread, yield_strength};
use rigwright_well::PartKind;
use std::f64::consts::PI;

pub(super) fn check(section: &At<'_>, above: &[At<'_>], report: &mut Report) {
    reference(section, above, report);
    let own = section.list("string");
    for (index, part) in own.iter().enumerate() {
        let Some(kind) = part.text("part").and_then(part_kind) else { continue };
        place_of_bit(part, kind, index, report);
        let last = index + 1 == own.len();
        if kind == PartKind::Bit {
            bit(part, report);
        } else {
            body(part, kind, report);
        }
        length(part, last && own.len() > 1, report);
        diameters(part, report);
        grade(part, report);
        connection(part, report);
    }
    if let Some(other) = section.table("bit") {
        nozzles(&other, report);
        if !own.is_empty() {
            report.push(
                Finding::error("well::two-bits", "another bit is given for a string that has its own")
                    .on(&other, "diameter", "this bit")
                    .on(&own[0], "part", "and this one")
                    .help("`bit` goes with `string = \"name of a section above\"`"),
            );
        }
    }
    fits(section, above, report);
}

fn reference(section: &At<'_>, above: &[At<'_>], report: &mut Report) {
    let Some(name) = section.text("string") else {
        if section.list("string").is_empty() && !section.refused("string") {
            report.push(
                Finding::error("well::missing", "the section has no drill string").on(section, "", "in this section").help(
                    "list parts from the bit up under `[[section.string]]`, or name a section above: `string = \"12 1/4 in\"`",
                ),
            );
        }
        return;
    };
    if above.iter().any(|other| other.text("name") == Some(name)) {
        return;
    }
    let names = || above.iter().filter_map(|other| other.text("name"));
    let help = match (nearest(name, names()), names().next()) {
        (Some(near), _) => format!("did you mean `{near}`?"),
        (None, Some(_)) => {
            format!("sections above are {}", names().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", "))
        }
        (None, None) => "there is no section above; list the parts under `[[section.string]]`".to_owned(),
    };
    let finding = Finding::error("well::unknown-section", format!("no section above is named `{name}`"));
    report.push(finding.on(section, "string", "whose string is meant?").help(help));
}

fn place_of_bit(part: &At<'_>, kind: PartKind, index: usize, report: &mut Report) {
    match (index, kind == PartKind::Bit) {
        (0, false) => report.push(
            Finding::error("well::first-part", "the string does not begin with a bit")
                .on(part, "part", "the lowest part")
                .help("list parts from the bit up: the first is `part = \"bit\"`"),
        ),
        (1.., true) => report.push(
            Finding::error("well::first-part", "a bit stands above other parts")
                .on(part, "part", "not the lowest part")
                .help("list parts from the bit up: only the first is a bit"),
        ),
        _ => {}
    }
}

fn bit(part: &At<'_>, report: &mut Report) {
    need(part, &["diameter"], "this part is a bit", report);
    nozzles(part, report);
    let not_of_a_bit = ["outside", "inside", "joint_outside", "joint_inside", "tool_joint", "make_up", "tool_loss", "nominal"];
    foreign(part, &["connection", "trigger_up", "trigger_down"], "a bit", report);
    foreign(part, &not_of_a_bit, "a bit", report);
    foreign(part, &["tool_flow", "tool_weight", "flow_least", "flow_most", "temperature_limit"], "a bit", report);
}

fn nozzles(bit: &At<'_>, report: &mut Report) {
    match (bit.held("nozzles"), bit.held("flow_area")) {
        (Some(_), Some(_)) => report.push(
            Finding::error("well::nozzles", "both nozzles and flow area are given")
                .on(bit, "nozzles", "these nozzles")
                .on(bit, "flow_area", "and this area")
                .help("leave one of them out"),
        ),
        (None, None) if !bit.refused("flow_area") => need(bit, &["nozzles"], "a bit has nozzles, or a `flow_area`", report),
        _ => {}
    }
}

fn body(part: &At<'_>, kind: PartKind, report: &mut Report) {
    let word = part.written("part");
    let why = format!("this part is a {word}");
    if kind == PartKind::DrillPipe && part.held("nominal").is_some() {
        need(part, &["outside"], &why, report);
        known_size(part, report);
    } else {
        need(part, &["outside", "inside"], &why, report);
        if kind != PartKind::DrillPipe {
            foreign(part, &["nominal"], &format!("a {word}"), report);
        }
    }
    foreign(part, &["diameter", "nozzles", "flow_area"], &format!("a {word}"), report);
    // The connection of a collar is as wide as the collar.
    if part.held("joint_outside").is_none() && kind != PartKind::Collar {
        for key in ["joint_inside", "tool_joint", "make_up"] {
            if part.held(key).is_some() {
                need(part, &["joint_outside"], &format!("`{key}` belongs to a joint"), report);
                break;
            }
        }
    }
    if let (Some(least), Some(most)) = (part.number("flow_least"), part.number("flow_most"))
        && more(least, most)
    {
        report.push(
            Finding::error("well::flow-range", "the least flow is more than the greatest")
                .on(part, "flow_least", "this least flow")
                .on(part, "flow_most", "is more than this"),
        );
    }
    if part.held("tool_loss").is_some() {
        need(part, &["tool_flow", "tool_weight"], "`tool_loss` holds at one flow and one mud weight only", report);
    } else if part.held("tool_flow").is_some() {
        need(part, &["tool_loss"], "`tool_flow` is the flow at which it was measured", report);
    } else if part.held("tool_weight").is_some() {
        need(part, &["tool_loss"], "`tool_weight` is the mud weight at which it was measured", report);
    }
    if kind == PartKind::DrillPipe && part.held("yield").is_none() && !part.refused("yield") {
        need(part, &["grade"], "drill pipe has a grade, or a `yield`", report);
    }
}

fn known_size(part: &At<'_>, report: &mut Report) {
    if part.held("outside").is_some() && part_inside(part).is_none() && !part.refused("inside") {
        report.push(
            Finding::error("well::unknown-size", "no drill pipe of this size has this nominal weight")
                .on(part, "nominal", "this nominal weight")
                .on(part, "outside", "at this size")
                .help("write its inside diameter: `inside = \"4.276 in\"`"),
        );
    }
}

/// Refuses entries that belong to another kind of part.
fn foreign(part: &At<'_>, keys: &[&str], what: &str, report: &mut Report) {
    let written: Vec<&str> = keys.iter().copied().filter(|key| part.held(key).is_some()).collect();
    if written.is_empty() {
        return;
    }
    let names = written.iter().map(|key| format!("`{key}`")).collect::<Vec<_>>().join(", ");
    let verb = if written.len() == 1 { "says" } else { "say" };
    let mut finding = Finding::error("well::foreign-entry", format!("{names} {verb} nothing of {what}"));
    for key in written {
        finding = finding.on(part, key, "nothing reads this");
    }
    report.push(finding.on(part, "part", "for this part").help("leave it out, or put it to the part that it belongs to"));
}

fn length(part: &At<'_>, reaches_up: bool, report: &mut Report) {
    if !reaches_up {
        need(part, &["length"], "only the last of several parts reaches to surface", report);
    } else if part.held("length").is_some() {
        report.push(
            Finding::caution("well::last-length", "the last part reaches to surface, whatever its length")
                .on(part, "length", "this length is not used")
                .help("leave it out, or list the part above it"),
        );
    }
}

fn diameters(part: &At<'_>, report: &mut Report) {
    for (inside, outside, what) in [("inside", "outside", "part"), ("joint_inside", "joint_outside", "joint")] {
        let (Some(bore), Some(body)) = (part.number(inside), part.number(outside)) else { continue };
        if !more(body, bore) {
            report.push(
                Finding::error("well::no-wall", format!("a {what} is as wide inside as outside"))
                    .on(part, inside, "this inside diameter")
                    .on(part, outside, "leaves no wall in this outside diameter"),
            );
        }
    }
}

fn grade(part: &At<'_>, report: &mut Report) {
    if let Some(grade) = part.text("grade") {
        if part.held("yield").is_none() {
            known_grade(part, grade, report);
        } else {
            report.push(
                Finding::caution("well::grade-and-yield", "both grade and yield are given")
                    .on(part, "yield", "this strength is used")
                    .on(part, "grade", "and this grade is not")
                    .help("leave one of them out"),
            );
        }
    }
}

/// Refuses a grade whose yield strength nobody knows.
/// A connection is named to be reckoned with, so that its thread must be known.
fn connection(part: &At<'_>, report: &mut Report) {
    let Some(name) = part.text("connection").filter(|name| thread(name).is_none()) else { return };
    let known = || connections().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
    report.push(
        Finding::error("well::unknown-connection", format!("the thread of `{name}` is not known"))
            .on(part, "connection", "this connection")
            .help(format!("known are {}; for any other leave it out and write `make_up` from the maker's sheet", known())),
    );
}

pub(super) fn known_grade(table: &At<'_>, grade: &str, report: &mut Report) {
    if yield_strength(grade).is_some() {
        return;
    }
    let help = match nearest(grade, grades()) {
        Some(near) => format!("did you mean `{near}`? for any other grade write its yield strength: `yield = \"80 ksi\"`"),
        None => format!(
            "known are {}; for any other write its yield strength: `yield = \"80 ksi\"`",
            grades().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ")
        ),
    };
    let finding = Finding::error("well::unknown-grade", format!("`{grade}` is not a known grade"));
    report.push(finding.on(table, "grade", "yield strength unknown").help(help));
}

fn fits(section: &At<'_>, above: &[At<'_>], report: &mut Report) {
    let mut parts = parts(section, above);
    let other_bit = section.table("bit");
    if let (Some(bit), Some(first)) = (&other_bit, parts.first_mut()) {
        *first = *bit;
    }
    if let Some(hole) = section.number("hole") {
        let narrow = tightest(above);
        for (index, part) in parts.iter().enumerate() {
            if index == 0 {
                bit_and_hole(part, section, hole, report);
                nozzles_and_bit(part, report);
                if let Some(narrow) = &narrow {
                    bit_passes(part, hole, narrow, report);
                }
            } else if passes(part, section, (hole, "hole"), report)
                && let Some((casing, drift)) = &narrow
            {
                passes(part, casing, (*drift, "inside"), report);
            }
        }
    }
    too_long(section, &parts, section_top(above), report);
}

fn bit_and_hole(bit: &At<'_>, section: &At<'_>, hole: f64, report: &mut Report) {
    let Some(diameter) = bit.number("diameter") else { return };
    if more(diameter, hole) {
        report.push(
            Finding::error("well::bit-and-hole", "the bit is wider than its hole")
                .on(section, "hole", "this hole")
                .on(bit, "diameter", "is drilled with this bit")
                .help("`hole` is the diameter of the bit; with another string's parts, give `bit` as well"),
        );
    } else if more(hole, diameter) {
        report.push(
            Finding::caution("well::bit-and-hole", "the hole is wider than its bit")
                .on(section, "hole", "this hole")
                .on(bit, "diameter", "is drilled with this bit")
                .help("fine with a hole opener above the bit; otherwise `hole` is the diameter of the bit"),
        );
    }
}

/// Nozzles that no bit of this size has room for: too many side by side, or too wide in all.
fn nozzles_and_bit(bit: &At<'_>, report: &mut Report) {
    /// Smallest room that one nozzle takes in the body: an inch. [m] (common practice)
    const BODY: f64 = 0.0254;
    /// Most of the bit's face that flow area may take; the widest sets in use take a fiftieth. [-]
    const FACE: f64 = 0.1;
    let Some(diameter) = bit.number("diameter") else { return };
    let (number, area, key) = match (bit.nozzles("nozzles"), bit.number("flow_area")) {
        (Some((number, area)), _) => (number, area, "nozzles"),
        (None, Some(area)) => (0, area, "flow_area"),
        (None, None) => return,
    };
    // Side by side on a circle half as wide as the bit.
    let places = (0.5 * PI * diameter / BODY).floor().max(1.0) as usize;
    if number > places {
        report.push(
            Finding::error("well::nozzles-and-bit", format!("{number} nozzles do not fit the bit"))
                .on(bit, key, "this many")
                .on(bit, "diameter", "in a bit of this diameter")
                .help(format!("side by side a bit of this size has places for {places}; write number x size in 32nds: `3x16`")),
        );
    } else if area > FACE * 0.25 * PI * diameter * diameter {
        report.push(
            Finding::error("well::nozzles-and-bit", "the nozzles take more than a tenth of the bit's face")
                .on(bit, key, "this flow area")
                .on(bit, "diameter", "in a bit of this diameter")
                .help("sizes are in 32nds of an inch, a flow area is that of all nozzles together"),
        );
    }
}

fn bit_passes(bit: &At<'_>, hole: f64, (casing, drift): &(At<'_>, f64), report: &mut Report) {
    let Some(diameter) = bit.number("diameter").filter(|diameter| more(*diameter, *drift)) else { return };
    if more(diameter, hole) {
        return;
    }
    // A drift that the user gave is the maker's word. One by the standard leaves room for casing that was
    // drifted larger on purpose.
    if casing.given("drift") || casing_inside(casing).is_some_and(|inside| more(diameter, inside)) {
        report.push(
            Finding::error("well::bit-does-not-pass", "the bit does not pass the casing above")
                .on(bit, "diameter", "this bit")
                .on(casing, if casing.given("drift") { "drift" } else { "inside" }, "does not pass here")
                .help("take a smaller bit, or set wider casing above"),
        );
    } else {
        report.push(
            Finding::caution(
                "well::bit-does-not-pass",
                "the bit passes the inside of the casing above, but not its standard drift",
            )
            .on(bit, "diameter", "this bit")
            .on(casing, "inside", "passes here if the casing was drifted for it")
            .help("add `drift` to that casing when it is special-drift casing"),
        );
    }
}

/// Whether a part passes a hole or casing; a finding says it if not.
fn passes(part: &At<'_>, wall: &At<'_>, (room, key): (f64, &str), report: &mut Report) -> bool {
    let wide = |outside: &&str| part.number(outside).is_some_and(|diameter| more(diameter, room));
    let Some(outside) = ["outside", "joint_outside"].into_iter().find(wide) else { return true };
    let name = part.text("name").unwrap_or(part.written("part"));
    let what = if key == "hole" { "does not fit its hole" } else { "does not pass the casing above" };
    report.push(Finding::error("well::part-does-not-pass", format!("the {name} {what}")).on(part, outside, "this diameter").on(
        wall,
        key,
        "does not pass here",
    ));
    false
}

fn too_long(section: &At<'_>, parts: &[At<'_>], top: Option<f64>, report: &mut Report) {
    let (Some(bottom), Some((_, fixed))) = (section.number("bottom"), parts.split_last()) else { return };
    let lengths: Option<Vec<f64>> = fixed.iter().map(|part| part.number("length")).collect();
    let (Some(lengths), Some(_)) = (lengths, top) else { return };
    let total: f64 = lengths.iter().sum();
    if more(total, bottom) {
        let longest = fixed.iter().zip(&lengths).max_by(|a, b| a.1.total_cmp(b.1)).map(|(part, _)| part);
        let finding = Finding::error("well::string-too-long", "the parts below the last are longer than the whole hole").on(
            section,
            "bottom",
            "the hole ends here",
        );
        let finding = match longest {
            Some(part) => finding.on(part, "length", "the longest of them"),
            None => finding,
        };
        report.push(finding.help("shorten them, or use another string in this section"));
    }
}
