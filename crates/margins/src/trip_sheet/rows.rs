//! The trip, stand by stand.

use super::fill::{at_the_top, steel};
use super::{Order, Run};
use crate::Scene;
pub use crate::circulating::safe_speed::FASTEST;
use crate::circulating::safe_speed::{MovedAt, moved_at};
use crate::geometry::Pipe;
use crate::kill_sheet::Constants;
use rigwright_physics::circulating::column::LevelDrop;
use rigwright_physics::circulating::passage::BoreCapacity;
use rigwright_physics::control::trips::{PressureDropDry, PressureDropWet};
use rigwright_physics::{Formula, Kind, Recorder};
use rigwright_well::{Operation, PartKind};
use std::collections::VecDeque;

/// Joints of casing in a row.
pub const JOINTS: u32 = 5;
/// Lengths shorter than this are none. [m]
const NOTHING: f64 = 1e-6;

/// A row of the trip sheet. Its measured columns are for the crew to fill in.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Joints of casing, or stands of drill string, moved so far; each counted from one.
    pub count: u32,
    /// Measured depth of the bit or of the shoe after them. [m]
    pub bit_depth: f64,
    /// What was moved.
    pub what: String,
    /// Length that was moved. [m]
    pub length: f64,
    /// Of which stretches that is, by their place, each with its length. [m]
    pub pieces: Vec<(usize, f64)>,
    /// Volume expected: to fill on the way out, to come back on the way in. [m³]
    pub volume: f64,
    /// Volume expected so far. [m³]
    pub total: f64,
    /// Fall of the level by this row alone, were it not filled; `None` on the way in. [m]
    pub fall: Option<f64>,
    /// Fall of hydrostatic pressure by this row alone, were it not filled; `None` on the way in. [Pa]
    pub drop: Option<f64>,
    /// Swab or surge with the bit where the row begins on the way out, where it ends on the way in.
    pub moved: Option<Moved>,
}

/// Swab or surge of a row, at the weakest depth of open hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moved {
    /// Measured depth that comes nearest to its limit. [m]
    pub weakest: f64,
    /// Swab or surge there at the planned speed. [Pa]
    pub change: f64,
    /// What is left there of the room of still mud, the wanted margin taken off; below nought it is passed. [Pa]
    pub left: f64,
    /// Fastest mean speed that keeps the margins; [`FASTEST`] where no speed is too fast. [m/s]
    pub fastest: f64,
}

/// A length of like pipe, in the order in which it moves.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// What it is called.
    pub name: String,
    /// Which part of a string; `None` for casing.
    pub kind: Option<PartKind>,
    /// Its length. [m]
    pub length: f64,
    /// Steel for each length. [m³/m]
    pub displacement: f64,
    /// Bore for each length. [m³/m]
    pub capacity: f64,
    /// What it takes up with its end closed, for each length. [m³/m]
    pub closed_end: f64,
    /// Capacity between it and the top of the hole; `None` where it fills that. [m³/m]
    pub annulus: Option<f64>,
}

impl Stretch {
    /// What a length of it leaves behind or takes up. [m³/m]
    pub fn fill(&self, with_bore: bool) -> f64 {
        self.displacement + if with_bore { self.capacity } else { 0.0 }
    }

    /// What the level falls in with it in the top of the hole; `None` where it fills that. [m³/m]
    pub fn falls_in(&self, with_bore: bool) -> Option<f64> {
        self.annulus.map(|annulus| if with_bore { annulus } else { annulus + self.capacity })
    }
}

/// What is moved, in the order in which it is.
pub(super) fn stretches<'a>(scene: &Scene<'a>, order: &Order, constants: &Constants) -> Vec<(Pipe<'a>, Stretch)> {
    let section = &scene.fit().well.sections[order.section];
    let round = |diameter: f64| BoreCapacity { inner_diameter: diameter }.value() * constants.capacity;
    let stretch = |pipe: Pipe<'a>, length: f64| {
        let stretch = Stretch {
            name: pipe.name().to_owned(),
            kind: if let Pipe::Part(part) = pipe { Some(part.kind) } else { None },
            length,
            displacement: steel(&pipe).value(),
            capacity: round(pipe.inner_diameter()),
            closed_end: round(pipe.outer_diameter()),
            annulus: at_the_top(scene, &pipe).map(|ring| ring.value() * constants.capacity),
        };
        (pipe, stretch)
    };
    let mut left = order.bit_depth;
    let mut from_the_bit: Vec<(Pipe<'a>, Stretch)> = Vec::new();
    match (order.run, &*section.casing) {
        (Run::Casing { .. }, Some(casing)) => {
            let length = (casing.shoe - casing.top).min(left);
            from_the_bit.push(stretch(Pipe::Casing(casing), length));
            left -= length;
            from_the_bit.extend(section.string.last().map(|part| stretch(Pipe::Part(part), left)));
        }
        _ => {
            for part in &section.string {
                let length = part.length.min(left);
                from_the_bit.push(stretch(Pipe::Part(part), length));
                left -= length;
            }
        }
    }
    from_the_bit.retain(|(_, stretch)| stretch.length > NOTHING);
    if matches!(order.run, Run::Out { .. }) {
        from_the_bit.reverse();
    }
    from_the_bit
}

/// Takes a length off the front of what is left, which holds stretches by their place with their lengths.
fn take(left: &mut VecDeque<(usize, f64)>, mut length: f64) -> Vec<(usize, f64)> {
    let mut taken = Vec::new();
    while let Some((place, first)) = left.front_mut() {
        let part = first.min(length);
        taken.push((*place, part));
        *first -= part;
        length -= part;
        if *first <= NOTHING {
            left.pop_front();
        }
        if length <= NOTHING {
            break;
        }
    }
    taken
}

/// The rows of a trip; with the entry that is missing where swab and surge cannot be told.
pub(super) fn rows<R: Recorder>(
    scene: &Scene,
    order: &Order,
    constants: &Constants,
    pipes: &[(Pipe, Stretch)],
    rec: &mut R,
) -> (Vec<Row>, Option<&'static str>) {
    let section = scene.section();
    let stand = scene.fit().rig.mast.stand;
    let (mud_weight, gravity) = (section.mud.weight, constants.gravity);
    let out = matches!(order.run, Run::Out { .. });
    let with_bore = order.run.with_bore();
    let mut left: VecDeque<(usize, f64)> = pipes.iter().map(|(_, stretch)| stretch.length).enumerate().collect();
    let (mut rows, mut moved_length, mut total) = (Vec::new(), 0.0, 0.0);
    let (mut of_casing, mut count) = (false, 0);
    while let Some((first, first_length)) = left.front() {
        let (pipe, top) = &pipes[*first];
        // Casing is counted in joints; the drill pipe that carries a liner in stands.
        let casing = match pipe {
            Pipe::Casing(casing) => Some(*casing),
            Pipe::Part(_) => None,
        };
        let lengths = casing.map_or(stand, |casing| (f64::from(JOINTS) * casing.joint_length).min(*first_length));
        let pieces = take(&mut left, lengths);
        let length: f64 = pieces.iter().map(|(_, length)| length).sum();
        let fill = |(place, length): &(usize, f64)| length * pipes[*place].1.fill(with_bore);
        let volume: f64 = pieces.iter().map(fill).sum();
        if casing.is_some() != of_casing {
            (of_casing, count) = (casing.is_some(), 0);
        }
        count += casing.map_or(1, |casing| (length / casing.joint_length - NOTHING).ceil() as u32);
        moved_length += length;
        total += volume;
        let unfilled = top.annulus.zip(top.falls_in(with_bore)).filter(|_| out).map(|(annulus_capacity, falls_in)| {
            let drop = if with_bore {
                PressureDropWet { volume, mud_weight, annulus_capacity, gravity }.value()
            } else {
                PressureDropDry { volume, mud_weight, annulus_capacity, capacity: top.capacity, gravity }.value()
            };
            (LevelDrop { volume, capacity: falls_in }.value(), drop)
        });
        let bit_depth = match (out, left.is_empty()) {
            // At the end of the way it is just there, whatever the sum of the lengths lacks.
            (true, true) => 0.0,
            (true, false) => (order.bit_depth - moved_length).max(0.0),
            (false, true) => order.bit_depth,
            (false, false) => moved_length,
        };
        let (fall, drop) = unfilled.unzip();
        rows.push(Row { count, bit_depth, what: names(pipes, &pieces), length, pieces, volume, total, fall, drop, moved: None });
    }
    let missing = swab(scene, order, &mut rows);
    rec.table("stand by stand", COLUMNS, || {
        let row = |row: &Row| vec![f64::from(row.count), row.bit_depth, row.length, row.volume, row.total];
        rows.iter().map(row).collect()
    });
    (rows, missing)
}

const COLUMNS: &[(&str, Kind)] = &[
    ("stands or joints", Kind::Count),
    ("bit at", Kind::Depth),
    ("moved", Kind::Depth),
    ("volume", Kind::Volume),
    ("in all", Kind::Volume),
];

fn names(pipes: &[(Pipe, Stretch)], pieces: &[(usize, f64)]) -> String {
    let mut names: Vec<&str> = pieces.iter().map(|(place, _)| pipes[*place].1.name.as_str()).collect();
    names.dedup();
    names.join(", ")
}

/// Writes swab and surge into the rows.
fn swab(scene: &Scene, order: &Order, rows: &mut [Row]) -> Option<&'static str> {
    let section = scene.section();
    let (operation, speed) = match order.run {
        Run::Out { .. } => (Operation::PullingOut, section.tripping.pulling_speed),
        Run::In { .. } => (Operation::RunningIn, section.tripping.running_speed),
        Run::Casing { .. } => (Operation::RunningCasing, section.casing.as_ref().map_or(0.0, |casing| casing.running_speed)),
    };
    let out = operation == Operation::PullingOut;
    // On the way out a stand is pulled with the bit where the stand before left it.
    let depths: Vec<f64> = rows.iter().map(|row| if out { row.bit_depth + row.length } else { row.bit_depth }).collect();
    match moved_at(scene, operation, &depths, speed) {
        Err(entry) => Some(entry),
        Ok(moved) => {
            for (row, at) in rows.iter_mut().zip(moved) {
                let MovedAt { weakest, change, left, fastest, .. } = at;
                row.moved = Some(Moved { weakest, change, left, fastest });
            }
            None
        }
    }
}
