//! The kill desk: readings of the gauges typed in, the kill sheet in figures that are read across a rig floor.

use crate::Server;
use crate::ask::{Ask, Case, Reply};
use crate::frame::{Frame, unread};
use crate::pages::{papers, picture, working};
use crate::shelf::Fitted;
use maud::{Markup, html};
use rigwright_margins::kill_sheet::{Constants, Float, Held, KillSheet, Kinder, Order, Readings, kill_sheet};
use rigwright_papers::figure::{kill_course, kill_schedule};
use rigwright_papers::{remark, weight_step};
use rigwright_physics::Working;
use rigwright_units::{Kind, System, parse, show, show_down, show_exact, show_up};
use rigwright_well::{Fit, Section};

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

/// Index of the section that is asked for, the last without.
pub(crate) fn section(ask: &Ask, fit: &Fit) -> usize {
    let last = fit.well.sections.len().saturating_sub(1);
    ask.get("section").and_then(|section| section.parse::<usize>().ok()).map_or(last, |section| section.min(last))
}

/// What is typed in.
fn fields(section: &Section) -> [Field; 5] {
    let slow = section.slow_rates.iter().copied().reduce(|a, b| if b.depth >= a.depth { b } else { a });
    let field = |name, words, kind, suggested| Field { name, words, kind, suggested };
    [
        field("sidpp", "shut-in drill pipe pressure", Kind::Pressure, None),
        field("sicp", "shut-in casing pressure", Kind::Pressure, None),
        field("gain", "pit gain", Kind::Volume, None),
        field("hole", "measured depth, bit on bottom", Kind::Depth, Some(section.bottom)),
        field("speed", "pump speed wanted", Kind::StrokeRate, slow.map(|slow| slow.pump_speed)),
    ]
}

fn body(ask: &Ask, case: &Case, fitted: &Fitted) -> Markup {
    let fit = &fitted.loaded.fit;
    let here = section(ask, fit);
    let Some(section) = fit.well.sections.get(here) else { return html! { p { "The well has no section." } } };
    let fields = fields(section);
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
            label { span { "float in the string" }
                select name="float" {
                    @for (value, words) in [("", "nobody said"), ("none", "none"), ("bumped", "yes, bumped")] {
                        option value=(value) selected[ask.get("float").unwrap_or_default() == value] { (words) }
                    }
                }
            }
            label { span { "strokes pumped so far" } input name="pumped" inputmode="decimal" value=(ask.get("pumped").unwrap_or("0")) autocomplete="off"; }
            button { "Work it out" }
        }
        @if ask.get("sidpp").is_some() { (sheet(ask, case, fitted, units)) }
        @else { p.faint { "Type the gauges and the pit gain in; the rest stands as the files say and may be changed. The mud in the hole is "
            (show_exact(section.mud.weight, Kind::Density, units)) "." } }
    }
}

fn typed(ask: &Ask, field: &Field, units: System) -> String {
    match ask.get(field.name) {
        Some(text) => text.to_owned(),
        None => field.suggested.map_or_else(String::new, |value| show_exact(value, field.kind, units)),
    }
}

/// What was typed, or everything that is wrong with it.
pub(crate) fn order(ask: &Ask, fit: &Fit) -> Result<Order, Vec<String>> {
    let (section, units) = (section(ask, fit), ask.units());
    let this = fit.well.sections.get(section).ok_or_else(|| vec!["the well has no section".to_owned()])?;
    let fields = fields(this);
    let mut wrong: Vec<String> = Vec::new();
    let mut value = |name: &str| {
        let Some(field) = fields.iter().find(|field| field.name == name) else { return 0.0 };
        match parse(&typed(ask, field, units), field.kind) {
            Ok(value) if value >= 0.0 => value,
            Ok(_) => {
                wrong.push(format!("{}: below nought; gauges read from nought up", field.words));
                0.0
            }
            Err(error) => {
                wrong.push(format!("{}: {error}; {}", field.words, error.help()));
                0.0
            }
        }
    };
    let (hole_depth, pump_speed) = (value("hole"), value("speed"));
    let readings = Readings {
        drill_pipe_pressure: value("sidpp"),
        casing_pressure: value("sicp"),
        gain: value("gain"),
        gain_error: None,
        float: match ask.get("float") {
            Some("none") => Float::None,
            Some("bumped") => Float::Bumped,
            _ => Float::Unsaid,
        },
    };
    if !(hole_depth > this.top && hole_depth <= this.bottom + 0.5) {
        wrong.push("the bit is not in the hole of this section: give its depth, or choose the section".to_owned());
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }
    Ok(Order {
        section,
        hole_depth: hole_depth.min(this.bottom),
        readings,
        constants: if ask.trade_constants() { Constants::TRADE } else { Constants::EXACT },
        weight_step: weight_step(units),
        pump_speed: Some(pump_speed),
        as_of: Some(jiff::tz::TimeZone::UTC.to_datetime(ask.as_of).date()),
    })
}

/// What an address of this kill sheet holds besides the case.
pub(crate) fn said(ask: &Ask) -> impl Iterator<Item = (&str, &str)> {
    ["section", "sidpp", "sicp", "gain", "hole", "speed", "float"].into_iter().filter_map(|key| Some((key, ask.get(key)?)))
}

fn sheet(ask: &Ask, case: &Case, fitted: &Fitted, units: System) -> Markup {
    let order = match order(ask, &fitted.loaded.fit) {
        Ok(order) => order,
        Err(wrong) => return html! { ul role="alert" { @for words in &wrong { li { (words) } } } },
    };
    let mut rec = Working::default();
    match kill_sheet(&fitted.loaded.fit, &order, &mut rec) {
        Ok(sheet) => html! {
            @if !sheet.stale.is_empty() {
                section.stale aria-label="stale inputs" { strong { "STALE" } ul { @for why in &sheet.stale { li { (remark(why, units)) } } } }
            }
            (figures(&sheet, units))
            @if case.changes.is_empty() {
                p.acts { a href=(papers::address(case, "/paper", papers::KILL_SHEET, &said(ask).collect::<Vec<_>>())) { "As a paper, to print and sign" } }
            }
            div.halves {
                (steps(ask, &sheet, units))
                (limits(&sheet.limits, units))
            }
            (courses(&sheet, units))
            h2 { "Beware" }
            ul { @for caution in &sheet.cautions { li { (remark(caution, units)) } } }
            details { summary { "Working" } (working::working(&rec, units)) }
        },
        Err(why) => html! {
            div role="alert" { p { "No kill sheet can be made of these readings:" } ul { @for why in &why { li { (remark(why, units)) } } } }
        },
    }
}

fn strokes(sheet: &KillSheet, volume: f64) -> String {
    format!("{:.0}", sheet.volumes.strokes(volume).ceil())
}

fn figures(sheet: &KillSheet, units: System) -> Markup {
    let pressure = |value: f64| show_up(value, Kind::Pressure, units);
    let volumes = &sheet.volumes;
    let least = sheet.limits.iter().filter_map(|held| Some((held, held.left()?))).min_by(|a, b| a.1.total_cmp(&b.1));
    html! {
        dl.large {
            div { dt { "kill mud weight" } dd { (show_up(sheet.kill_weight, Kind::Density, units)) } }
            @if let Some(schedule) = &sheet.schedule {
                div { dt { "initial circulating pressure" } dd { (show(schedule.initial_pressure, Kind::Pressure, units)) } }
                div { dt { "final circulating pressure" } dd { (show(schedule.final_pressure, Kind::Pressure, units)) } }
            } @else {
                div { dt { "circulating pressures" } dd { "unknown" } p.faint { "no slow rate was read: take one" } }
            }
            div { dt { "strokes, surface to bit" } dd { (strokes(sheet, volumes.to_bit())) } }
            div { dt { "strokes, bit to shoe" } dd { (strokes(sheet, volumes.bit_to_shoe())) } }
            div { dt { "strokes, bit to surface" } dd { (strokes(sheet, volumes.bit_to_surface())) } }
            @if let Some((held, left)) = least {
                div class=[(left < 0.0).then_some("passed")] {
                    dt { "least room: " (held.name) }
                    dd { @if left < 0.0 { "PASSED" } @else { (show_down(left, Kind::Pressure, units)) } }
                }
            }
            @if let Some(choke) = sheet.driller.as_ref().map(|course| course.choke) {
                div { dt { "highest at the choke, driller" } dd { (pressure(choke.value)) } }
            }
        }
        p.faint {
            "Formation pressure " (show(sheet.formation_pressure, Kind::Pressure, units)) " at "
            (show(sheet.vertical_depth, Kind::Depth, units)) " vertical. Kill mud weight before rounding "
            (show_exact(sheet.exact_weight, Kind::Density, units)) "; with the trip margin, for after the kill, "
            (show_up(sheet.trip_weight, Kind::Density, units)) ". Constants: " (sheet.order.constants.name) "."
        }
    }
}

/// The steps to the bit; the one that the strokes pumped have reached is marked.
fn steps(ask: &Ask, sheet: &KillSheet, units: System) -> Markup {
    let Some(schedule) = &sheet.schedule else { return html! {} };
    let pumped = ask.get("pumped").and_then(|text| text.trim().parse::<f64>().ok()).filter(|strokes| *strokes >= 0.0);
    let to_bit = sheet.volumes.strokes(sheet.volumes.to_bit());
    let end = to_bit + sheet.volumes.strokes(sheet.volumes.bit_to_surface());
    let now = pumped.filter(|pumped| *pumped <= to_bit + 0.5);
    let now = now.and_then(|pumped| schedule.steps.iter().rposition(|step| step.strokes <= pumped + 0.5));
    let beyond = pumped.is_some_and(|pumped| pumped > to_bit + 0.5);
    html! {
        table.steps {
            caption { "Drill pipe pressure to hold as the kill mud goes down" }
            thead { tr { th scope="col" { "strokes" } th scope="col" { "hold" } th scope="col" { "front at" } th scope="col" { span.quiet { "now" } } } }
            tbody {
                @for (index, step) in schedule.steps.iter().enumerate() {
                    @let here = now == Some(index);
                    tr class=[here.then_some("now")] aria-current=[here.then_some("step")] {
                        td { (format!("{:.0}", step.strokes)) }
                        td { (show(step.pressure, Kind::Pressure, units)) }
                        td { (show(step.depth, Kind::Depth, units)) }
                        td { @if here { "← now" } }
                    }
                }
                tr class=[beyond.then_some("now")] aria-current=[beyond.then_some("step")] {
                    td { (format!("to {:.0}", end.ceil())) }
                    td { (show(schedule.final_pressure, Kind::Pressure, units)) " held" }
                    td {}
                    td { @if beyond { "← now" } }
                }
            }
        }
    }
}

fn limits(limits: &[Held], units: System) -> Markup {
    let shown = |value: Option<f64>| value.map_or_else(|| "—".to_owned(), |value| show_up(value, Kind::Pressure, units));
    html! {
        div.scroll tabindex="0" role="region" aria-label="limits" {
            table.numbers {
                caption { "Limits, by what is asked of them" }
                thead { tr {
                    th scope="col" { "limit" } th scope="col" { "bears" } th scope="col" { "shut in" }
                    th scope="col" { "driller" } th scope="col" { "wait and weight" } th scope="col" { "left" }
                } }
                tbody { @for held in limits {
                    tr {
                        th scope="row" { (held.name) }
                        td { (held.capacity.map_or_else(|| "unknown".to_owned(), |value| show_down(value, Kind::Pressure, units))) }
                        td { (shown(held.shut_in)) } td { (shown(held.driller)) } td { (shown(held.weighted)) }
                        td { @match held.left() {
                            Some(left) if left < 0.0 => strong { "PASSED" },
                            Some(left) => (show_down(left, Kind::Pressure, units)),
                            None => "—",
                        } }
                    }
                } }
            }
        }
    }
}

/// Both methods beside each other.
fn courses(sheet: &KillSheet, units: System) -> Markup {
    let nothing = html! {};
    html! {
        h2 { "Both methods along the way" }
        @match sheet.kinder {
            Some(Kinder::WaitAndWeight { by }) => p { "Wait and weight is kinder to the shoe, by " (show_down(by, Kind::Pressure, units)) "." },
            Some(Kinder::Alike) => p { "At the shoe neither method is kinder." },
            None => p { "No course of the pressures is told: see below." },
        }
        div.halves {
            @for (id, figure) in [("schedule", kill_schedule(sheet, units)), ("course", kill_course(sheet, units))] {
                @if let Some(figure) = figure { div { (picture::plain(&figure, id, &nothing)) } }
            }
        }
    }
}
