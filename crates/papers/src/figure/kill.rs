//! A kill in pictures: the drill pipe pressure to hold as the kill mud goes down, and what choke and shoe see on the way.

use super::{Axis, Figure, Lie, Mark, Role, Series};
use rigwright_margins::kill_sheet::{Course, KillSheet};
use rigwright_units::{Kind, System, unit};

fn strokes() -> Axis {
    Axis { label: "strokes pumped".to_owned(), unit: String::new() }
}

fn upright(title: &str, note: &str, units: System, series: Vec<Series>, marks: Vec<Mark>) -> Figure {
    Figure {
        title: title.to_owned(),
        note: note.to_owned(),
        values: Axis { label: "pressure".to_owned(), unit: unit(Kind::Pressure, units).symbol.to_owned() },
        along: strokes(),
        lie: Lie::Rightward,
        bands: Vec::new(),
        series,
        marks,
        from_zero: true,
    }
}

/// Drill pipe pressure against strokes while kill mud goes down; `None` without a slow rate.
pub fn kill_schedule(sheet: &KillSheet, units: System) -> Option<Figure> {
    let schedule = sheet.schedule.as_ref()?;
    let pressure = unit(Kind::Pressure, units);
    let run = |read: fn(&rigwright_margins::kill_sheet::Step) -> f64| {
        schedule.steps.iter().map(|step| (pressure.from_si(read(step)), step.strokes)).collect()
    };
    let series = vec![
        Series { name: "to hold".to_owned(), role: Role::Demand, runs: vec![run(|step| step.pressure)] },
        Series { name: "straight line".to_owned(), role: Role::ShutIn, runs: vec![run(|step| step.straight)] },
    ];
    let to_bit = sheet.volumes.strokes(sheet.volumes.to_bit());
    let marks = vec![Mark { label: "kill mud at the bit".to_owned(), at: to_bit }];
    Some(upright("Drill pipe pressure to hold", "while kill mud fills the string, at the slow rate", units, series, marks))
}

/// Pressure at choke and shoe along both circulations; `None` where no course is told.
pub fn kill_course(sheet: &KillSheet, units: System) -> Option<Figure> {
    let (driller, weighted) = (sheet.driller.as_ref()?, sheet.weighted.as_ref()?);
    let pressure = unit(Kind::Pressure, units);
    let run = |course: &Course, shoe: bool| {
        let read =
            |row: &rigwright_margins::kill_sheet::Row| if shoe { row.instant.weak_pressure } else { row.instant.choke_pressure };
        course.rows.iter().map(|row| (pressure.from_si(read(row)), sheet.volumes.strokes(row.instant.pumped))).collect()
    };
    let line = |name: &str, role, run| Series { name: name.to_owned(), role, runs: vec![run] };
    let series = vec![
        line("choke, driller", Role::Demand, run(driller, false)),
        line("choke, wait and weight", Role::Flowing, run(weighted, false)),
        line("shoe, driller", Role::UpperLimit, run(driller, true)),
        line("shoe, wait and weight", Role::Running, run(weighted, true)),
    ];
    let mark =
        |label: &str, at: Option<f64>| at.map(|pumped| Mark { label: label.to_owned(), at: sheet.volumes.strokes(pumped) });
    let marks = [
        mark("gas at the shoe, driller", driller.instants.gas_at_shoe.filter(|pumped| *pumped > 0.0)),
        mark("gas at surface, driller", driller.instants.gas_at_surface),
        mark("gas out, driller", Some(driller.instants.gas_out)),
    ];
    let note = "one bubble; driller's first circulation, and wait and weight, from shut-in";
    Some(upright("Pressure at choke and shoe", note, units, series, marks.into_iter().flatten().collect()))
}
