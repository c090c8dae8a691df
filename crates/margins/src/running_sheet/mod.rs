//! The running sheet of a casing: its pieces from a tally or as planned, where each comes to stand, what stands up at surface, what
//! it displaces and takes to fill, and what the hook shows after each.
//!
//! Hook loads, fill and safe speeds are those of the questions on the run, with the casing of the well file; lengths are the
//! tally's own. Stretch and heat lengthen no piece.

mod lengths;
#[cfg(test)]
mod tests;

pub use lengths::{PAGE, Page, Spare, Sums};

use crate::circulating::safe_speed::moved_at;
use crate::hoisting::{filled, hook_with_shoe_at};
use crate::{Basis, Limit, Remark, Scene, question, sweep};
use lengths::Lengths;
use rigwright_physics::circulating::passage::BoreCapacity;
use rigwright_physics::tubular::{STEEL_DENSITY, SteelDisplacement};
use rigwright_physics::{Formula, Kind, Off, STANDARD_GRAVITY};
use rigwright_well::{Casing, Fit, Operation, PieceKind, Tally};

/// A piece that goes in.
#[derive(Clone, Debug, PartialEq)]
pub struct RunPiece {
    /// Its number.
    pub number: String,
    /// What it is.
    pub kind: PieceKind,
    /// Grade and remark of the tally.
    pub note: String,
    /// Length as measured, and what its thread takes of it. [m, m]
    pub measured: (f64, f64),
    /// Length that it adds. [m]
    pub length: f64,
    /// Length of the string with it. [m]
    pub total: f64,
    /// Measured depth of its upper end when the shoe stands at its planned depth; below nought it stands up above the datum. [m]
    pub top: f64,
    /// Hook loads after it is in, block and drive included.
    pub hook: HookLoads,
    /// Fastest mean speed of this piece that keeps the margins; `None` where swab and surge are unknown or bear on nothing. [m/s]
    pub fastest: Option<f64>,
    /// What the string displaces and takes.
    pub volumes: Volumes,
}

/// Hook loads with the shoe at one depth. [N]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HookLoads {
    /// Picked up.
    pub up: f64,
    /// Hanging still.
    pub still: f64,
    /// Lowered.
    pub down: f64,
}

/// Volumes of the string so far, and of its last piece. [m³]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Volumes {
    /// Displaced by the piece with its end open: its steel.
    pub open: f64,
    /// Displaced by the piece on its float: steel and bore.
    pub closed: f64,
    /// Displaced by all so far, open.
    pub open_total: f64,
    /// Displaced by all so far, on the float.
    pub closed_total: f64,
    /// Mud to fill the piece.
    pub fill: f64,
    /// Mud to fill all so far.
    pub fill_total: f64,
}

/// Where the string comes to stand.
#[derive(Clone, Debug, PartialEq)]
pub struct SpaceOut {
    /// Length from the shoe's planned depth to the upper end of the casing, as the well file has it. [m]
    pub planned: f64,
    /// Length of the pieces that go in. [m]
    pub run: f64,
    /// What stands up above the planned upper end with the shoe at its depth; below nought it is lacking. [m]
    pub stick_up: f64,
    /// The same with the uppermost joint left out. [m]
    pub without_last: Option<f64>,
    /// Length from the lower end to the first collar. [m]
    pub shoe_track: Option<f64>,
    /// Mud inside the shoe track. [m³]
    pub track_volume: Option<f64>,
    /// Mud from the upper end of the casing down to the collar: what pushes the plug onto it. [m³]
    pub to_collar: Option<f64>,
}

/// A running sheet.
#[derive(Clone, Debug)]
pub struct RunningSheet {
    /// Index of the section.
    pub section: usize,
    /// Whether the pieces are those of a tally; otherwise joints as long as the well file says.
    pub tallied: bool,
    /// Whether the tally holds overall lengths; otherwise made-up ones.
    pub overall: bool,
    /// Pieces in the order of running.
    pub pieces: Vec<RunPiece>,
    /// Subtotals of ten pieces each, of those that go in.
    pub pages: Vec<Page>,
    /// Sums of the whole tally in several orders.
    pub sums: Sums,
    /// Pieces that stay on the racks.
    pub spares: Vec<Spare>,
    /// Where it comes to stand.
    pub space_out: SpaceOut,
    /// Hook loads with the shoe at its planned depth.
    pub landed: HookLoads,
    /// Largest hook load of mast, line and drawworks; `None` where the mast's is not given.
    pub limit: Option<Limit>,
    /// Weight of the string in air by the tally's weights, where every piece that goes in has one. [N]
    pub air_weight: Option<f64>,
    /// Steel and bore for each length. [m³/m]
    pub per_length: (f64, f64),
    /// Mud weight. [kg/m³]
    pub mud_weight: f64,
    /// Planned speed, the mean over a joint. [m/s]
    pub speed: f64,
    /// What to beware of.
    pub cautions: Vec<Remark>,
}

/// The running sheet of the casing that ends a section, or why there can be none.
pub fn running_sheet(fit: &Fit, section: usize, tally: Option<&Tally>) -> Result<RunningSheet, Remark> {
    let Some(casing) = fit.well.sections.get(section).and_then(|section| section.casing.as_ref()) else {
        return Err(Remark::new("no casing is run at the end of this section (`section[].casing`)"));
    };
    let lengths = match tally {
        Some(tally) => Lengths::of_tally(tally, casing.shoe - casing.top),
        None => Lengths::planned(casing.joint_length, casing.shoe - casing.top),
    };
    let basis = Basis::new(fit);
    let scene = Scene::new(&basis, sweep::situation(fit, section, Operation::RunningCasing, bottom(fit, section), casing.shoe));
    let bore = BoreCapacity { inner_diameter: casing.inner_diameter }.value();
    let steel = SteelDisplacement { linear_mass: casing.linear_mass, steel_density: STEEL_DENSITY }.value();
    let space_out = space_out(casing, &lengths, bore);
    let (pieces, missing) = pieces(&scene, casing, &lengths, (steel, bore));
    let judged = question("hoisting/overpull").map(|question| (question.ask)(&scene, &mut Off));
    let mut sheet = RunningSheet {
        section,
        tallied: tally.is_some(),
        overall: tally.is_none_or(|tally| tally.overall),
        pages: lengths::pages(&pieces),
        pieces,
        sums: lengths.sums(),
        spares: lengths.spares.clone(),
        space_out,
        landed: hook_with_shoe_at(&scene, casing.shoe),
        limit: judged.and_then(|answer| answer.judged().map(|judged| judged.limit)),
        air_weight: lengths.air_mass.map(|mass| mass * STANDARD_GRAVITY),
        per_length: (steel, bore),
        mud_weight: scene.section().mud.weight,
        speed: scene.situation.pipe_speed,
        cautions: Vec::new(),
    };
    sheet.cautions = cautions(&scene, casing, &sheet, missing);
    Ok(sheet)
}

fn bottom(fit: &Fit, section: usize) -> f64 {
    fit.well.sections[section].bottom
}

fn space_out(casing: &Casing, lengths: &Lengths, bore: f64) -> SpaceOut {
    let planned = casing.shoe - casing.top;
    let run = lengths.run();
    let last = lengths.last_joint();
    let track = lengths.shoe_track();
    SpaceOut {
        planned,
        run,
        stick_up: run - planned,
        without_last: last.map(|last| run - last - planned),
        shoe_track: track,
        track_volume: track.map(|track| track * bore),
        to_collar: track.map(|track| (planned - track).max(0.0) * bore),
    }
}

/// The pieces with what happens as each goes in; with the entry that is missing where safe speeds cannot be told.
fn pieces(scene: &Scene, casing: &Casing, lengths: &Lengths, (steel, bore): (f64, f64)) -> (Vec<RunPiece>, Option<&'static str>) {
    let planned = casing.shoe - casing.top;
    let mut total = 0.0;
    let totals: Vec<f64> = lengths
        .going
        .iter()
        .map(|piece| {
            total += piece.length;
            total
        })
        .collect();
    // What stands up above the upper end is not in the hole.
    let depths: Vec<f64> = totals.iter().map(|total| total.min(planned)).collect();
    let (safe, missing) = match moved_at(scene, Operation::RunningCasing, &depths, scene.situation.pipe_speed) {
        Ok(moved) => (moved, None),
        Err(entry) => (Vec::new(), Some(entry)),
    };
    let mut before = 0.0;
    let piece = |(index, (going, total)): (usize, (&lengths::Going, &f64))| {
        let depth = depths[index];
        let inside = depth - before;
        let (open, closed) = (steel * inside, (steel + bore) * inside);
        let fill_total = bore * filled(casing, depth);
        let fill = fill_total - bore * filled(casing, before);
        before = depth;
        RunPiece {
            number: going.number.clone(),
            kind: going.kind,
            note: going.note.clone(),
            measured: going.measured,
            length: going.length,
            total: *total,
            top: casing.shoe - total,
            hook: hook_with_shoe_at(scene, depth),
            fastest: safe.get(index).map(|safe| safe.fastest),
            volumes: Volumes { open, closed, open_total: steel * depth, closed_total: (steel + bore) * depth, fill, fill_total },
        }
    };
    (lengths.going.iter().zip(&totals).enumerate().map(piece).collect(), missing)
}

/// Share by which the tally's weight may differ from the well file's before it is said. [-]
const WEIGHT_DIFFERS: f64 = 0.005;

fn cautions(scene: &Scene, casing: &Casing, sheet: &RunningSheet, missing: Option<&'static str>) -> Vec<Remark> {
    let mut cautions = Vec::new();
    let space_out = &sheet.space_out;
    if space_out.stick_up < 0.0 {
        cautions.push(
            Remark::new("the tally does not reach: pieces are lacking")
                .with("lacking", -space_out.stick_up, Kind::Depth)
                .with("shoe would stand at", casing.shoe + space_out.stick_up, Kind::Depth)
                .with("planned", casing.shoe, Kind::Depth),
        );
    }
    if !sheet.sums.agree() {
        cautions.push(Remark::new("the sums of the tally do not agree: do not run by it"));
    }
    if sheet.tallied && sheet.space_out.shoe_track.is_none() {
        cautions.push(Remark::new("the tally names no collar: the shoe track is unknown"));
    }
    if let Some(weight) = sheet.air_weight {
        let by_file = casing.linear_mass * space_out.run * STANDARD_GRAVITY;
        if (weight / by_file - 1.0).abs() > WEIGHT_DIFFERS {
            cautions.push(
                Remark::new("the tally weighs other than the casing of the well file, by which hook loads are reckoned")
                    .with("tally, in air", weight, Kind::Force)
                    .with("well file", by_file, Kind::Force),
            );
        }
    }
    if let Some(limit) = sheet.limit {
        let heaviest = sheet.pieces.iter().map(|piece| piece.hook.up).fold(sheet.landed.up, f64::max);
        if heaviest > limit.capacity - limit.reserve {
            cautions.push(
                Remark::new(format!("the string picked up leaves less than the wanted overpull: {}", limit.name))
                    .with("hook load", heaviest, Kind::Force)
                    .with("limit", limit.capacity, Kind::Force),
            );
        }
    } else {
        cautions.push(Remark::new("the largest hook load is unknown: `rig.mast.hook_load` is not given for these lines"));
    }
    if let Some(entry) = missing {
        cautions.push(Remark::new(format!("safe speeds are unknown, not without bound: `{entry}` is not given")));
    } else if let Some(slowest) = sheet.pieces.iter().filter_map(|piece| piece.fastest).min_by(f64::total_cmp)
        && slowest < sheet.speed
    {
        cautions.push(
            Remark::new("the planned speed surges the hole above its limit, the wanted margin counted in: run slower there")
                .with("planned", sheet.speed, Kind::Speed)
                .with("slowest safe speed", slowest, Kind::Speed),
        );
    }
    if scene.fit().open_to_sea(sheet.section).is_some() {
        cautions.push(Remark::new("no riser yet: what the casing displaces goes to the sea and is not seen"));
    }
    cautions
}
