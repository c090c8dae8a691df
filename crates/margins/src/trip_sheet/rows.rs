//! The trip, stand by stand.

use super::fill::{at_the_top, steel};
use super::{Order, Run};
use crate::Scene;
pub use crate::circulating::safe_speed::FASTEST;
use crate::circulating::safe_speed::{MovedAt, moved_at};
use crate::geometry::Pipe;
use crate::kill_sheet::Constants;
use rigwright_physics::circulating::passage::BoreCapacity;
use rigwright_physics::control::trips::{PressureDropDry, PressureDropWet};
use rigwright_physics::{Formula, Kind, Recorder};
use rigwright_well::Operation;

/// Joints of casing in a row.
pub(super) const JOINTS: u32 = 5;
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
    /// Volume expected: to fill on the way out, to come back on the way in. [m³]
    pub volume: f64,
    /// Volume expected so far. [m³]
    pub total: f64,
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

/// A length of like pipe.
struct Piece<'a> {
    pipe: Pipe<'a>,
    length: f64,
    displacement: f64,
    capacity: f64,
}

/// What is moved, in the order in which it is.
fn pieces<'a>(scene: &Scene<'a>, order: &Order) -> Vec<Piece<'a>> {
    let section = &scene.fit().well.sections[order.section];
    let piece = |pipe: Pipe<'a>, length: f64| Piece {
        pipe,
        length,
        displacement: steel(&pipe).value(),
        capacity: BoreCapacity { inner_diameter: pipe.inner_diameter() }.value(),
    };
    let mut left = order.bit_depth;
    let mut from_the_bit: Vec<Piece<'a>> = Vec::new();
    match (order.run, &section.casing) {
        (Run::Casing { .. }, Some(casing)) => {
            let length = (casing.shoe - casing.top).min(left);
            from_the_bit.push(piece(Pipe::Casing(casing), length));
            left -= length;
            from_the_bit.extend(section.string.last().map(|part| piece(Pipe::Part(part), left)));
        }
        _ => {
            for part in &section.string {
                let length = part.length.min(left);
                from_the_bit.push(piece(Pipe::Part(part), length));
                left -= length;
            }
        }
    }
    from_the_bit.retain(|piece| piece.length > NOTHING);
    if matches!(order.run, Run::Out { .. }) {
        from_the_bit.reverse();
    }
    from_the_bit
}

/// Takes a length off the front of what is left; says what it was.
fn take<'a>(pieces: &mut std::collections::VecDeque<Piece<'a>>, mut length: f64) -> Vec<(Pipe<'a>, f64, f64, f64)> {
    let mut taken = Vec::new();
    while let Some(first) = pieces.front_mut() {
        let part = first.length.min(length);
        taken.push((first.pipe, part, first.displacement, first.capacity));
        first.length -= part;
        length -= part;
        if first.length <= NOTHING {
            pieces.pop_front();
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
    rec: &mut R,
) -> (Vec<Row>, Option<&'static str>) {
    let section = scene.section();
    let stand = scene.fit().rig.mast.stand;
    let (mud_weight, gravity) = (section.mud.weight, constants.gravity);
    let out = matches!(order.run, Run::Out { .. });
    let with_bore = order.run.with_bore();
    let mut left: std::collections::VecDeque<Piece> = pieces(scene, order).into();
    let (mut rows, mut moved_length, mut total) = (Vec::new(), 0.0, 0.0);
    let (mut of_casing, mut count) = (false, 0);
    while let Some(first) = left.front() {
        // Casing is counted in joints; the drill pipe that carries a liner in stands.
        let casing = match first.pipe {
            Pipe::Casing(casing) => Some(casing),
            Pipe::Part(_) => None,
        };
        let lengths = casing.map_or(stand, |casing| (f64::from(JOINTS) * casing.joint_length).min(first.length));
        let taken = take(&mut left, lengths);
        let bore = |capacity: f64| if with_bore { capacity } else { 0.0 };
        let length: f64 = taken.iter().map(|(_, length, ..)| length).sum();
        let volume: f64 = taken.iter().map(|(_, length, steel, capacity)| length * (steel + bore(*capacity))).sum();
        if casing.is_some() != of_casing {
            (of_casing, count) = (casing.is_some(), 0);
        }
        count += casing.map_or(1, |casing| (length / casing.joint_length - NOTHING).ceil() as u32);
        moved_length += length;
        total += volume;
        let drop = taken.first().filter(|_| out).and_then(|(pipe, _, _, capacity)| {
            let annulus_capacity = at_the_top(scene, pipe)?.value();
            Some(if with_bore {
                PressureDropWet { volume, mud_weight, annulus_capacity, gravity }.value()
            } else {
                PressureDropDry { volume, mud_weight, annulus_capacity, capacity: *capacity, gravity }.value()
            })
        });
        let bit_depth = if out { (order.bit_depth - moved_length).max(0.0) } else { moved_length };
        rows.push(Row { count, bit_depth, what: names(&taken), length, volume, total, drop, moved: None });
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

fn names(taken: &[(Pipe, f64, f64, f64)]) -> String {
    let mut names: Vec<&str> = taken.iter().map(|(pipe, ..)| pipe.name()).collect();
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
