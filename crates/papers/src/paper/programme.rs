//! The drilling programme: the job from spud to the last shoe.

use super::rows::{judged, string, to_change, told_all};
use super::{Desk, Fact, Part, Table};
use crate::figure;
use crate::sheet::{assumed, link, methods, tally};
use rigwright_margins::due::{Standing, due};
use rigwright_margins::{Asked, Basis, Verdict, window};
use rigwright_units::Kind;
use rigwright_well::{Section, WellKind};

pub(super) fn parts(desk: &Desk) -> Vec<Part> {
    let subject = desk.subject;
    let fit = subject.fit;
    let mut parts = vec![Part::Facts { facts: cover(desk) }, Part::heading("the job in short")];
    if let Some(weakest) = subject.review.weakest() {
        parts.push(Part::strong(format!("Weakest link: {}", link(subject, weakest))));
    }
    parts.push(Part::text(tally(subject)));
    parts.push(to_change(desk, true));
    parts.push(seats(desk));
    parts.push(formations(desk));
    let rows: Vec<_> = (0..fit.well.sections.len()).map(|section| (section, window(fit, section))).collect();
    let drawn = figure::window(fit, &rows, subject.units);
    let scale = figure::well(fit, fit.well.sections.len().saturating_sub(1), subject.units);
    let days = figure::days(fit, Basis::new(fit).programme(), subject.units);
    for drawn in [drawn, scale, days] {
        parts.push(Part::Figure { caption: format!("{}. {}", drawn.title, drawn.note), figure: Box::new(drawn) });
    }
    for (index, section) in fit.well.sections.iter().enumerate() {
        parts.extend(one_section(desk, index, section));
    }
    parts.extend(rests(desk));
    parts.push(Part::Signatures { lines: vec!["made by".into(), "checked by".into(), "approved by".into()] });
    parts
}

fn cover(desk: &Desk) -> Vec<Fact> {
    let (well, pen) = (&desk.subject.fit.well, desk.pen());
    let fact = |label: &str, value: String, note: String| Fact { label: label.to_owned(), value, note };
    let place = match well.kind {
        WellKind::Land => "on land".to_owned(),
        WellKind::BottomSupported => format!("standing in {} of water", pen.show(well.water_depth, Kind::Depth)),
        WellKind::Floating => format!("afloat over {} of water", pen.show(well.water_depth, Kind::Depth)),
    };
    let depth = well.total_depth();
    vec![
        fact(
            "total depth",
            pen.show(depth, Kind::Depth),
            format!("vertical {}", pen.show(well.path.vertical_depth_at(depth), Kind::Depth)),
        ),
        fact("sections", well.sections.len().to_string(), place),
        fact("jurisdiction", well.jurisdiction.clone().unwrap_or_else(|| "not given".to_owned()), rules(desk)),
    ]
}

/// How the known rules of tests and drills stand; an unknown jurisdiction shows nothing as met.
fn rules(desk: &Desk) -> String {
    let list = due(desk.subject.fit, desk.day());
    if list.jurisdiction.is_none() {
        return "no rule is shown as met".to_owned();
    }
    let late = list.due.iter().filter(|due| !matches!(due.standing, Standing::InTime(_))).count();
    format!("{} of {} rules of tests and drills not in time", late, list.due.len())
}

/// Sections with their casings.
fn seats(desk: &Desk) -> Part {
    let pen = desk.pen();
    let mut table =
        Table::new("holes and casings", &["section", ">to", ">mud weight", "*casing", ">from", ">shoe", ">shoe test"]);
    for section in &desk.subject.fit.well.sections {
        let casing = section.casing.as_ref();
        let of = |value: Option<f64>, kind: Kind| value.map_or_else(String::new, |value| pen.show(value, kind));
        table.row([
            section.name.as_str().into(),
            pen.show(section.bottom, Kind::Depth).into(),
            pen.show(section.mud.weight, Kind::Density).into(),
            casing.map_or("open", |casing| &casing.name).into(),
            of(casing.map(|casing| casing.top), Kind::Depth).into(),
            of(casing.map(|casing| casing.shoe), Kind::Depth).into(),
            of(casing.and_then(|casing| casing.leak_off).map(|test| test.weight), Kind::Density).into(),
        ]);
    }
    Part::Table(table)
}

fn formations(desk: &Desk) -> Part {
    let pen = desk.pen();
    let mut table =
        Table::new("layers, pressures at their tops", &["*layer", ">top (vertical)", ">pore pressure", ">fracture pressure"]);
    for layer in &desk.subject.fit.well.formations {
        table.row([
            layer.name.as_str().into(),
            pen.show(layer.top, Kind::Depth).into(),
            pen.show(layer.pore_at(layer.top), Kind::Pressure).into(),
            pen.maybe(layer.fracture_at(layer.top), Kind::Pressure).into(),
        ]);
    }
    Part::Table(table)
}

fn one_section(desk: &Desk, index: usize, section: &Section) -> Vec<Part> {
    let (subject, pen) = (desk.subject, desk.pen());
    let fact = |label: &str, value: String| Fact { label: label.to_owned(), value, note: String::new() };
    let drilling = &section.drilling;
    let mut parts = vec![
        Part::Heading {
            text: format!("{} to {}", section.name, pen.show(section.bottom, Kind::Depth)),
            level: 1,
            new_page: true,
        },
        Part::Facts {
            facts: vec![
                fact("mud weight", pen.show(section.mud.weight, Kind::Density)),
                fact("flow", pen.show(drilling.flow_rate, Kind::FlowRate)),
                fact("weight on bit", pen.show(drilling.weight_on_bit, Kind::Force)),
                fact("rotary speed", pen.show(drilling.rotary_speed, Kind::RotarySpeed)),
            ],
        },
    ];
    parts.extend(string(desk, index));
    if let Some(casing) = &*section.casing {
        parts.push(Part::text(format!(
            "{}: {} inside {}, {}, grade {}, shoe at {}.",
            casing.name,
            pen.show(casing.outer_diameter, Kind::Diameter),
            pen.show(casing.inner_diameter, Kind::Diameter),
            pen.show(casing.linear_mass, Kind::LinearMass),
            casing.grade,
            pen.show(casing.shoe, Kind::Depth)
        )));
    }
    let of_section = |asked: &&Asked| asked.section == Some(index) && asked.answer.judged().is_some();
    let mut answers: Vec<&Asked> = subject.review.answers.iter().filter(of_section).collect();
    // Weakest first, so that a reader who stops early has read what matters.
    answers.sort_by_key(|asked| subject.review.ranked().iter().position(|ranked| std::ptr::eq(*ranked, *asked)));
    parts.push(judged(desk, "every judged answer of this section, weakest first", answers.into_iter()));
    let unknown = subject.review.of(Verdict::Unknown);
    let titles: Vec<&str> =
        unknown.iter().filter(|asked| asked.section == Some(index)).map(|asked| asked.question.title).collect();
    if !titles.is_empty() {
        parts.push(Part::strong(format!("Unknown here: {}.", titles.join(", "))));
    }
    parts
}

/// What all of it rests on.
fn rests(desk: &Desk) -> Vec<Part> {
    let subject = desk.subject;
    let mut parts = vec![Part::Heading { text: "what this rests on".to_owned(), level: 1, new_page: true }];
    parts.extend(told_all(
        desk,
        &["circulating/best-nozzles", "hoisting/line-work", "power/programme", "circulating/volumes", "control/kill"],
    ));
    let assumed = assumed(subject);
    if !assumed.is_empty() {
        let mut table = Table::new("inputs that nobody wrote, with what stands for them", &["***input", "**value", "****source"]);
        for one in assumed {
            table.row([one.path.into(), one.value.into(), one.source.into()]);
        }
        parts.push(Part::Table(table));
    }
    let mut table = Table::new("what the methods take for granted", &["*method", "*questions"]);
    for method in methods(subject) {
        let titles: Vec<&str> = method.questions.iter().map(|(_, title)| *title).collect();
        table.row([method.text.into(), titles.join(", ").into()]);
    }
    parts.push(Part::Table(table));
    let mut table = Table::new("formulas used, with their sources", &["**formula", "***source"]);
    for record in subject.review.formulas(subject.fit) {
        table.row([record.title.into(), record.source.into()]);
    }
    parts.push(Part::Table(table));
    parts
}
