//! The course of a question over depth: demand and limit in each operation.

use super::{Axis, Figure, Lie, Mark, Role, Series};
use rigwright_margins::{Answer, Judged, Question};
use rigwright_units::{Kind, System, unit};
use rigwright_well::{Fit, Operation, Situation};

/// The course of a question in the section that governs, from [`rigwright_margins::course`]; the governing depth is marked.
pub fn course(fit: &Fit, question: &Question, rows: &[(Situation, Answer)], governing: &Situation, units: System) -> Figure {
    let section = governing.section;
    let depth = |measured: f64| unit(Kind::Depth, units).from_si(measured);
    let across = unit(question.kind, units);
    let judged = |operation: Operation| {
        let of = rows.iter().filter(move |(situation, _)| situation.operation == operation);
        let mut points: Vec<(f64, Judged)> =
            of.filter_map(|(situation, answer)| Some((depth(situation.bit_depth), *answer.judged()?))).collect();
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
        points
    };
    let mut limits: Vec<Vec<(f64, f64)>> = Vec::new();
    let mut series: Vec<Series> = Vec::new();
    for operation in Operation::ALL {
        let points = judged(operation);
        if points.is_empty() {
            continue;
        }
        let limit: Vec<(f64, f64)> =
            points.iter().map(|(depth, judged)| (across.from_si(judged.limit.capacity), *depth)).collect();
        // Operations that share a limit share its line.
        if !limits.contains(&limit) {
            limits.push(limit);
        }
        let run = points.iter().map(|(depth, judged)| (across.from_si(judged.demand), *depth)).collect();
        series.push(Series { name: operation.name().to_owned(), role: role(operation), runs: vec![run] });
    }
    if !limits.is_empty() {
        series.push(Series { name: "limit".to_owned(), role: Role::UpperLimit, runs: limits });
    }
    let name = fit.well.sections.get(section).map_or("", |section| &section.name);
    let mut marks = vec![Mark { label: "governs".to_owned(), at: depth(governing.bit_depth) }];
    let shoe = fit.well.casing_above(section);
    marks.extend(shoe.map(|casing| Mark { label: format!("shoe of {}", casing.name), at: depth(casing.shoe) }));
    Figure {
        title: format!("{}: {}", fit.well.name, question.title),
        note: format!("{name}, demand and limit by depth of the bit, or of the shoe of running casing"),
        values: Axis { label: "demand and limit".to_owned(), unit: across.symbol.to_owned() },
        along: Axis { label: "measured depth".to_owned(), unit: unit(Kind::Depth, units).symbol.to_owned() },
        bands: Vec::new(),
        series,
        marks,
        lie: Lie::Downward,
        from_zero: true,
    }
}

const fn role(operation: Operation) -> Role {
    match operation {
        Operation::Drilling => Role::Flowing,
        Operation::Connection => Role::Still,
        Operation::Circulating => Role::Circulating,
        Operation::PullingOut => Role::Pulling,
        Operation::RunningIn => Role::Running,
        Operation::RunningCasing => Role::RunningCasing,
        Operation::ShutIn => Role::ShutIn,
    }
}
