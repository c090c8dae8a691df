//! The kill desk: readings of the gauges typed in, the kill sheet in figures that are read across a rig floor.

use crate::Server;
use crate::ask::{Ask, Case, Reply};
use crate::frame::{Frame, unread};
use crate::pages::{picture, working};
use crate::shelf::Fitted;
use maud::{Markup, html};
use rigwright_margins::kill_desk::{KillSheet, NoSheet, Readings, kill_sheet};
use rigwright_physics::{STANDARD_GRAVITY, Working};
use rigwright_units::{Kind, System, parse, show, show_exact, show_up};
use rigwright_well::SlowRate;

/// A slow rate that is older may be of another mud or another pump. [d]
const STALE_AFTER: i32 = 1;
/// Further from where the slow rate was read its pressure is another. [m]
const STALE_DEPTH: f64 = 150.0;
/// A mud weight further from that of the slow rate changes its pressure. [kg/m³]
const SAME_WEIGHT: f64 = 6.0;

/// A field: name, words, kind, and the value that the files suggest.
struct Field {
    name: &'static str,
    words: &'static str,
    kind: Kind,
    suggested: Option<f64>,
}

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    let case = ask.case();
    let fitted = match server.shelf.fitted(&server.folder, &case, false) {
        Ok(fitted) => fitted,
        Err(why) => return unread(server, ask, &case, &why),
    };
    let body = body(ask, &case, &fitted);
    Reply::page(Frame { title: "Kill desk", case: Some(&case), control: true }.page(server, ask, &body))
}

fn body(ask: &Ask, case: &Case, fitted: &Fitted) -> Markup {
    let fit = &fitted.loaded.fit;
    let last = fit.well.sections.len().saturating_sub(1);
    let here = ask.get("section").and_then(|section| section.parse::<usize>().ok()).map_or(last, |section| section.min(last));
    let Some(section) = fit.well.sections.get(here) else { return html! { p { "The well has no section." } } };
    let slow = section.slow_rates.iter().copied().reduce(|a, b| if b.depth >= a.depth { b } else { a });
    let fields = [
        Field { name: "sidpp", words: "shut-in drill pipe pressure", kind: Kind::Pressure, suggested: None },
        Field { name: "sicp", words: "shut-in casing pressure", kind: Kind::Pressure, suggested: None },
        Field { name: "bit", words: "measured depth of the bit", kind: Kind::Depth, suggested: Some(section.bottom) },
        Field {
            name: "weight",
            words: "weight of the mud in the hole",
            kind: Kind::Density,
            suggested: Some(section.mud.weight),
        },
        Field { name: "speed", words: "pump speed", kind: Kind::StrokeRate, suggested: slow.map(|slow| slow.pump_speed) },
        Field {
            name: "slow",
            words: "pressure at that speed, read beforehand",
            kind: Kind::Pressure,
            suggested: slow.map(|slow| slow.pressure),
        },
    ];
    let units = ask.units();
    let index = here.to_string();
    html! {
        h1 { "Kill desk" }
        nav.acts aria-label="sections" {
            @for (index, other) in fit.well.sections.iter().enumerate() {
                @let text = index.to_string();
                a href=(case.url("/kill", &[("section", &text)])) aria-current=[(index == here).then_some("true")] { (other.name) }
            }
        }
        form.readings method="get" action="/kill" {
            (picture::hidden(case, &[("section", &index)]))
            @for field in &fields {
                label { span { (field.words) }
                    input name=(field.name) value=(typed(ask, field, units)) required autocomplete="off" placeholder=(rigwright_units::example(field.kind).to_string());
                }
            }
            label { span { "strokes pumped so far" } input name="pumped" inputmode="decimal" value=(ask.get("pumped").unwrap_or("0")) autocomplete="off"; }
            button { "Work it out" }
        }
        (stale(ask, slow, &fields))
        @if ask.get("sidpp").is_some() { (sheet(ask, fitted, here, &fields, units)) }
        @else { p.faint { "Type the two gauges in; the rest stands as the files say and may be changed." } }
    }
}

fn typed(ask: &Ask, field: &Field, units: System) -> String {
    match ask.get(field.name) {
        Some(text) => text.to_owned(),
        None => field.suggested.map_or_else(String::new, |value| show_exact(value, field.kind, units)),
    }
}

/// What the sheet rests on that may not be true any more.
fn stale(ask: &Ask, slow: Option<SlowRate>, fields: &[Field]) -> Markup {
    let value = |name: &str| {
        let field = fields.iter().find(|field| field.name == name)?;
        ask.get(name).map_or(field.suggested, |text| parse(text, field.kind).ok())
    };
    let mut words: Vec<String> = Vec::new();
    match slow {
        None => words.push("No slow rate is in the files for this section: take a fresh one.".to_owned()),
        Some(slow) => {
            let today = jiff::tz::TimeZone::UTC.to_datetime(ask.as_of).date();
            match slow.date.and_then(|date| age(date, today)) {
                None => words.push("Nobody wrote when the slow rate was read.".to_owned()),
                Some(days) if days < 0 => words.push(format!("The slow rate bears a date {} days ahead.", -days)),
                Some(days) if days > STALE_AFTER => words.push(format!("The slow rate is {days} days old.")),
                Some(_) => {}
            }
            if value("weight").is_some_and(|weight| (weight - slow.weight).abs() > SAME_WEIGHT) {
                words.push("The slow rate was read with a mud of another weight.".to_owned());
            }
            if value("bit").is_some_and(|bit| (bit - slow.depth).abs() > STALE_DEPTH) {
                words.push("The slow rate was read at another depth.".to_owned());
            }
        }
    }
    html! {
        @if !words.is_empty() {
            section.stale aria-label="stale inputs" { strong { "STALE" } ul { @for line in &words { li { (line) } } } }
        }
    }
}

/// Days between the day of a reading and today.
fn age(date: jiff::civil::Date, today: jiff::civil::Date) -> Option<i32> {
    Some(date.until(today).ok()?.get_days())
}

fn sheet(ask: &Ask, fitted: &Fitted, section: usize, fields: &[Field], units: System) -> Markup {
    let mut wrong: Vec<String> = Vec::new();
    let mut value = |name: &str| {
        let Some(field) = fields.iter().find(|field| field.name == name) else { return 0.0 };
        match parse(&typed(ask, field, units), field.kind) {
            Ok(value) => value,
            Err(error) => {
                wrong.push(format!("{}: {error}; {}", field.words, error.help()));
                0.0
            }
        }
    };
    let (gravity, weight_step) = constants(ask, units);
    let readings = Readings {
        drill_pipe_pressure: value("sidpp"),
        casing_pressure: value("sicp"),
        bit_depth: value("bit"),
        mud_weight: value("weight"),
        pump_speed: value("speed"),
        slow_pressure: value("slow"),
        weight_step,
        gravity,
    };
    if !wrong.is_empty() {
        return html! { ul role="alert" { @for words in &wrong { li { (words) } } } };
    }
    let mut rec = Working::default();
    match kill_sheet(&fitted.loaded.fit, section, &readings, &mut rec) {
        Ok(sheet) => html! {
            (figures(&sheet, &readings, units))
            (steps(ask, &sheet, units))
            details { summary { "Working" } (working::working(&rec, units)) }
        },
        Err(NoSheet::BitElsewhere) => html! { p role="alert" { "The bit is not in the hole of this section: give its depth." } },
        Err(NoSheet::Missing(path)) => html! { p role="alert" { "The files do not give " code { (path) } "." } },
        Err(NoSheet::Reading(why)) => html! { p role="alert" { "A reading cannot be: " (why) "." } },
    }
}

/// Gravity and the step in which mud is weighted, as the reader has set them.
fn constants(ask: &Ask, units: System) -> (f64, f64) {
    let trade = parse("0.052 psi/ft/ppg", Kind::Acceleration).unwrap_or(STANDARD_GRAVITY);
    let step = if units == System::Field { "0.1 ppg" } else { "0.01 sg" };
    (if ask.trade_constants() { trade } else { STANDARD_GRAVITY }, parse(step, Kind::Density).unwrap_or(10.0))
}

fn figures(sheet: &KillSheet, readings: &Readings, units: System) -> Markup {
    let strokes = |value: f64| format!("{:.0}", value.ceil());
    html! {
        dl.large {
            div { dt { "kill mud weight" } dd { (show_up(sheet.kill.kill_weight, Kind::Density, units)) } }
            div { dt { "initial circulating pressure" } dd { (show(sheet.kill.initial_pressure, Kind::Pressure, units)) } }
            div { dt { "final circulating pressure" } dd { (show(sheet.kill.final_pressure, Kind::Pressure, units)) } }
            div { dt { "strokes to bit" } dd { (strokes(sheet.to_bit)) } }
            div { dt { "strokes bit to shoe" } dd { (strokes(sheet.to_shoe)) } }
            div { dt { "strokes bit to surface" } dd { (strokes(sheet.to_surface)) } }
            div { dt { "time for both" } dd { (show(sheet.time, Kind::Time, units)) } }
            div { dt { "most at the casing gauge, still" } dd {
                @match sheet.most_at_casing {
                    Some(most) => {
                        (rigwright_units::show_down(most, Kind::Pressure, units))
                        @if readings.casing_pressure > most { " " strong { "PASSED" } }
                    }
                    None => { "unknown" }
                }
            } }
        }
        p.faint { "String " (show(sheet.string, Kind::Volume, units)) ", annulus " (show(sheet.annulus, Kind::Volume, units)) ". Unrounded kill mud weight "
            (show_exact(sheet.kill.exact_weight, Kind::Density, units)) "." }
    }
}

/// The steps to the bit; the one that the strokes pumped have reached is marked.
fn steps(ask: &Ask, sheet: &KillSheet, units: System) -> Markup {
    let pumped = ask.get("pumped").and_then(|text| text.trim().parse::<f64>().ok()).filter(|strokes| *strokes >= 0.0);
    let now = pumped.and_then(|pumped| sheet.steps.iter().rposition(|(strokes, _)| *strokes <= pumped + 0.5));
    html! {
        table.steps {
            caption { "Drill pipe pressure to hold as the kill mud goes down" }
            thead { tr { th scope="col" { "strokes" } th scope="col" { "drill pipe pressure" } th scope="col" { span.quiet { "now" } } } }
            tbody {
                @for (index, (strokes, pressure)) in sheet.steps.iter().enumerate() {
                    tr class=[(now == Some(index)).then_some("now")] aria-current=[(now == Some(index)).then_some("step")] {
                        td { (format!("{strokes:.0}")) }
                        td { (show(*pressure, Kind::Pressure, units)) }
                        td { @if now == Some(index) { "← now" } }
                    }
                }
                tr class=[pumped.is_some_and(|pumped| pumped > sheet.to_bit + 0.5).then_some("now")] {
                    td { (format!("to {:.0}", (sheet.to_bit + sheet.to_surface).ceil())) }
                    td { (show(sheet.kill.final_pressure, Kind::Pressure, units)) " held" }
                    td {}
                }
            }
        }
    }
}
