//! The kill sheet as a paper: filled from shut-in readings, or blank for a drill.

use super::{Cell, Column, Desk, Fact, Paper, Part, Pen, Table};
use crate::kill_sheet::{CAUTIONS, choke_line, remark};
use crate::sheet;
use rigwright_margins::Place;
use rigwright_margins::kill_sheet::{KillSheet, Length, Peak, StartStep};
use rigwright_units::Kind;

/// Rows of the schedule of a blank sheet.
const BLANK_STEPS: usize = 11;

/// A kill sheet filled from readings. What it rests on is printed in full; a stale one says so across its face.
pub fn kill_sheet(desk: &Desk, kill: &KillSheet) -> Paper {
    let pen = desk.pen();
    let mut parts = vec![Part::Facts { facts: read(&pen, kill) }, Part::Facts { facts: pump(&pen, kill) }];
    parts.push(volumes(desk, &pen, kill));
    parts.extend(from_the_sea_bed(&pen, kill));
    parts.extend(start_up(&pen, kill));
    parts.extend(schedule(&pen, kill));
    parts.extend(methods(&pen, kill));
    parts.push(limits(&pen, kill));
    parts.push(Part::text(stock(&pen, kill)));
    let beware: Vec<String> = kill.cautions.iter().map(|caution| remark(caution, desk.subject.units)).collect();
    if !beware.is_empty() {
        parts.push(Part::text(format!("Beware: {}.", beware.join("; "))));
    }
    paper(desk, kill, parts)
}

/// A sheet with this well's volumes and slow rates, to be filled in at a drill.
pub(super) fn blank(desk: &Desk, kill: &KillSheet) -> Paper {
    let pen = desk.pen();
    let mut readings = Table::form(
        "read after shutting in",
        &["drill pipe pressure", "casing pressure", "pit gain", "time shut in", "float bumped at"],
    );
    readings.rows.push(vec![Cell::default(); readings.columns.len()]);
    let mut pressures = Table::form(
        "worked out",
        &["kill mud weight", "initial circulating", "final circulating", "fall for 100 strokes", "MAASP", "barite"],
    );
    pressures.rows.push(vec![Cell::default(); pressures.columns.len()]);
    let mut steps = Table::form("schedule", &["strokes", "drill pipe, hold", "drill pipe, read", "casing, read", "pits", "time"]);
    steps.rows = vec![vec![Cell::default(); steps.columns.len()]; BLANK_STEPS];
    let mut rates = Table::new("slow rates in the files", &["*pump speed", ">pressure", ">read at", "day"]);
    let section = desk.subject.fit.well.sections.get(kill.order.section);
    for rate in section.iter().flat_map(|section| &section.slow_rates) {
        rates.row([
            pen.show(rate.pump_speed, Kind::StrokeRate).into(),
            pen.show(rate.pressure, Kind::Pressure).into(),
            pen.show(rate.depth, Kind::Depth).into(),
            rate.date.map_or_else(|| "undated".to_owned(), |date| date.to_string()).into(),
        ]);
    }
    let parts = vec![
        Part::strong("For a drill: no readings are in it."),
        Part::Table(readings),
        Part::Table(pressures),
        Part::Table(rates),
        volumes(desk, &pen, kill),
        Part::Table(steps),
    ];
    paper(desk, kill, parts)
}

fn paper(desk: &Desk, kill: &KillSheet, parts: Vec<Part>) -> Paper {
    let mut cautions = sheet::CAUTIONS.to_vec();
    cautions.extend(CAUTIONS);
    Paper {
        slug: super::KILL_SHEET,
        title: "Kill sheet",
        one_page: true,
        control: true,
        head: desk.head_of("kill-sheet", Some(kill.order.section)),
        stale: kill.stale.iter().map(|stale| remark(stale, desk.subject.units)).collect(),
        parts,
        cautions,
    }
}

fn fact(label: &str, value: String, note: impl Into<String>) -> Fact {
    Fact { label: label.to_owned(), value, note: note.into() }
}

fn read(pen: &Pen, kill: &KillSheet) -> Vec<Fact> {
    let readings = &kill.order.readings;
    let depth =
        format!("at {}, {} vertical", pen.show(kill.order.hole_depth, Kind::Depth), pen.show(kill.vertical_depth, Kind::Depth));
    vec![
        fact("drill pipe, shut in", pen.show(readings.drill_pipe_pressure, Kind::Pressure), depth),
        fact(
            "casing, shut in",
            pen.show(readings.casing_pressure, Kind::Pressure),
            format!("shoe at {}", pen.show(kill.shoe, Kind::Depth)),
        ),
        fact("pit gain", pen.show(readings.gain, Kind::Volume), format!("mud {}", pen.show(kill.mud_weight, Kind::Density))),
        fact("formation pressure", pen.up(kill.formation_pressure, Kind::Pressure), "drill pipe and still mud"),
    ]
}

fn pump(pen: &Pen, kill: &KillSheet) -> Vec<Fact> {
    let exact = rigwright_units::show_exact(kill.exact_weight, Kind::Density, pen.units);
    let mut facts = vec![fact("kill mud", pen.up(kill.kill_weight, Kind::Density), format!("unrounded {exact}"))];
    if let (Some(slow), Some(schedule)) = (&kill.slow, &kill.schedule) {
        let date = slow.reading.date.map_or_else(|| "undated".to_owned(), |date| format!("of {date}"));
        let rate = format!(
            "{} at {}, {date}",
            pen.show(slow.reading.pressure, Kind::Pressure),
            pen.show(slow.reading.pump_speed, Kind::StrokeRate)
        );
        facts.push(fact("initial circulating", pen.show(schedule.initial_pressure, Kind::Pressure), rate));
        facts.push(fact("final circulating", pen.show(schedule.final_pressure, Kind::Pressure), "with kill mud at the bit"));
    } else {
        facts.push(fact("circulating pressures", "unknown".to_owned(), "no slow rate was read"));
    }
    let strokes = |volume: f64| pen.show(kill.volumes.strokes(volume), Kind::Count);
    let up = format!("{} from bit to surface", strokes(kill.volumes.bit_to_surface()));
    facts.push(fact("strokes to the bit", strokes(kill.volumes.to_bit()), up));
    facts
}

fn volumes(desk: &Desk, pen: &Pen, kill: &KillSheet) -> Part {
    let mut table = Table::new("volumes and strokes", &["*", ">length", ">capacity", ">volume", ">strokes", ">in all"]);
    let mut lengths = |lengths: &mut dyn Iterator<Item = &Length>| {
        let mut all = 0.0;
        for length in lengths {
            all += length.strokes;
            table.row([
                length.what.as_str().into(),
                pen.show(length.length, Kind::Depth).into(),
                pen.show(length.capacity, Kind::VolumePerLength).into(),
                pen.show(length.volume, Kind::Volume).into(),
                pen.show(length.strokes, Kind::Count).into(),
                pen.show(all, Kind::Count).into(),
            ]);
        }
    };
    lengths(&mut std::iter::once(&kill.volumes.surface).chain(&kill.volumes.string));
    lengths(&mut kill.volumes.annulus.iter());
    let section = desk.subject.section(Some(kill.order.section));
    table.caption =
        format!("volumes and strokes, {section}; {} of one pump", pen.show(kill.volumes.pump_output, Kind::VolumePerStroke));
    Part::Table(table)
}

/// The choke line from preventers on the sea bed, as on the screen.
fn from_the_sea_bed(pen: &Pen, kill: &KillSheet) -> Option<Part> {
    let mut table = Table::new(choke_line::CHOKE_LINE, &["", "*"]);
    for (name, words) in choke_line::rows(pen, kill) {
        table.row([name.into(), words.into()]);
    }
    (!table.rows.is_empty()).then_some(Part::Table(table))
}

/// Bringing the pump to rate, where the choke is not simply held at what the casing read.
fn start_up(pen: &Pen, kill: &KillSheet) -> Option<Part> {
    kill.choke_line.filter(|_| !kill.start_up.is_empty())?;
    let mut heads = vec!["*pump speed".to_owned()];
    heads.extend(kill.start_up.iter().map(|step| format!(">{}", pen.show(step.pump_speed, Kind::StrokeRate))));
    let heads: Vec<&str> = heads.iter().map(String::as_str).collect();
    let mut table = Table::new("bringing the pump to rate, through the choke line alone", &heads);
    for (name, strong, pressure) in [
        ("hold at the choke", true, (|step| step.choke) as fn(&StartStep) -> f64),
        ("drill pipe should show", false, |step| step.drill_pipe),
    ] {
        let cell = |step| Cell { text: pen.show(pressure(step), Kind::Pressure), strong };
        table.rows.push(std::iter::once(name.into()).chain(kill.start_up.iter().map(cell)).collect());
    }
    Some(Part::Table(table))
}

/// The schedule, with room for what the gauges read.
fn schedule(pen: &Pen, kill: &KillSheet) -> Option<Part> {
    let schedule = kill.schedule.as_ref()?;
    let heads = [">strokes", ">front at", ">hold", ">straight line", "drill pipe, read", "casing, read", "pits, read", "time"];
    let mut table =
        Table::new("drill pipe pressure while kill mud fills the string: hold the column \"hold\", then the last", &heads);
    for step in &schedule.steps {
        let mut row: Vec<Cell> = vec![
            pen.show(step.strokes, Kind::Count).into(),
            pen.show(step.depth, Kind::Depth).into(),
            Cell { text: pen.show(step.pressure, Kind::Pressure), strong: true },
            pen.show(step.straight, Kind::Pressure).into(),
        ];
        row.resize(heads.len(), Cell::default());
        table.rows.push(row);
    }
    table.form = true;
    table.columns.iter_mut().skip(4).for_each(|column: &mut Column| column.share = 1);
    Some(Part::Table(table))
}

fn methods(pen: &Pen, kill: &KillSheet) -> Option<Part> {
    let (driller, weighted) = (kill.driller.as_ref()?, kill.weighted.as_ref()?);
    let at = |peak: &Peak, kind: Kind| -> Cell {
        format!("{} at {}", pen.up(peak.value, kind), pen.show(kill.volumes.strokes(peak.pumped), Kind::Count)).into()
    };
    let mut table = Table::new("highest on the way, at strokes", &["*", ">driller's method", ">wait and weight"]);
    table.row(["choke".into(), at(&driller.choke, Kind::Pressure), at(&weighted.choke, Kind::Pressure)]);
    table.row(["shoe".into(), at(&driller.shoe, Kind::Pressure), at(&weighted.shoe, Kind::Pressure)]);
    if let Some(weak) = &kill.weakest {
        let name = format!("weakest depth, {}", pen.show(weak.point.depth, Kind::Depth));
        table.row([name.into(), at(&weak.driller, Kind::Pressure), at(&weak.weighted, Kind::Pressure)]);
    }
    table.row(["pit gain".into(), at(&driller.gain, Kind::Volume), at(&weighted.gain, Kind::Volume)]);
    Some(Part::Table(table))
}

fn limits(pen: &Pen, kill: &KillSheet) -> Part {
    let mut table =
        Table::new("limits, each by its name", &["*limit", ">at", ">bears", ">now", ">driller's", ">wait, weight", ">left"]);
    let unknown = || Cell { text: "unknown".to_owned(), strong: true };
    for held in &kill.limits {
        let asked =
            |value: Option<f64>| -> Cell { value.map_or_else(|| "—".to_owned(), |value| pen.up(value, Kind::Pressure)).into() };
        let place = match held.place {
            Place::Surface => "surface".to_owned(),
            Place::Depth(depth) => pen.show(depth, Kind::Depth),
        };
        let left = held.left();
        let short = left.is_some_and(|left| left < 0.0);
        table.row([
            held.name.as_str().into(),
            place.into(),
            held.capacity.map_or_else(unknown, |capacity| pen.down(capacity, Kind::Pressure).into()),
            asked(held.shut_in),
            asked(held.driller),
            asked(held.weighted),
            left.map_or_else(unknown, |left| Cell { text: pen.down(left, Kind::Pressure), strong: short }),
        ]);
    }
    Part::Table(table)
}

fn stock(pen: &Pen, kill: &KillSheet) -> String {
    let stock = &kill.stock;
    let on_site = stock.barite_on_site.map_or_else(|| "unknown".to_owned(), |mass| pen.down(mass, Kind::Mass));
    let room = stock.room_on_site.map_or_else(|| "unknown".to_owned(), |room| pen.down(room, Kind::Volume));
    let time = |time: Option<f64>| time.map_or_else(|| "unknown".to_owned(), |time| pen.show(time, Kind::Time));
    format!(
        "Barite {} of {on_site} on site. Room in the pits {} of {room}. To the bit {}, bit to surface {}; driller's method {}, wait \
         and weight {} of pumping.",
        pen.up(stock.barite, Kind::Mass),
        pen.up(stock.room(), Kind::Volume),
        time(stock.to_bit),
        time(stock.bottoms_up),
        time(stock.driller),
        time(stock.weighted)
    )
}
