//! The pipe body: tension with torsion along the string, and the pull that is left.

use super::PULL_SHARE;
use super::body::{is_pipe, worn_diameter};
use crate::answer::worse;
use crate::geometry::Pipe;
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::hoisting::{HookLoad, TravellingWeight};
use rigwright_physics::tubular::{SteelArea, TensionStrength, TensionUnderTorsion, TorsionStrength};
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::{Motion, Operation, Part};

/// Tension and torsion that the worn body of a part bears. [N, N·m]
struct Strength {
    tension: f64,
    torsion: f64,
}

/// Strength by class of wear; `None` where the yield strength is not given.
fn strength<R: Recorder>(part: &Part, rec: &mut R) -> Option<Strength> {
    let yield_strength = part.yield_strength?;
    let inner_diameter = part.inner_diameter;
    let outer_diameter = worn_diameter(part, rec);
    let steel_area = rec.take(SteelArea { outer_diameter, inner_diameter });
    Some(Strength {
        tension: rec.take(TensionStrength { yield_strength, steel_area }),
        torsion: rec.take(TorsionStrength { yield_strength, outer_diameter, inner_diameter }),
    })
}

/// The limits of each run of drill pipe and heavy-weight pipe at its top, where its tension is largest.
fn along<R: Recorder>(scene: &Scene, rec: &mut R, mut judge: impl FnMut(&mut R, Strength, f64, f64, f64) -> Judged) -> Answer {
    let drag = scene.drag(rec);
    let (mut missing, mut worst) = (false, None);
    for piece in scene.string() {
        let Pipe::Part(part) = piece.pipe else { continue };
        if !is_pipe(part) {
            continue;
        }
        let Some(depth) = scene.look(piece.top..=piece.bottom, piece.top) else { continue };
        rec.stretch(|| part.name.clone(), piece.top, piece.bottom);
        let Some(strength) = strength(part, rec) else {
            missing = true;
            continue;
        };
        let (tension, torque) = drag.heaviest_at(depth);
        rec.given("effective tension there, at the top of the part unless asked elsewhere", tension, Kind::Force);
        rec.given("torque there", torque, Kind::Torque);
        worst = worse(worst, judge(rec, strength, tension, torque, depth));
    }
    let short = worst.is_some_and(|judged: Judged| judged.room() < 0.0);
    match worst {
        // A part that nobody knows may be the weaker one, unless a known one is passed already.
        _ if missing && !short => Answer::Missing(vec!["section[].string[].grade"]),
        Some(judged) => Answer::Judged(judged),
        None => Answer::DoesNotArise("no drill pipe or heavy-weight pipe in the hole"),
    }
}

/// What may be pulled beyond the pick-up weight.
pub(crate) struct PullLeft {
    /// The pull. [N]
    pub pull: f64,
    /// The load that the weakest part may carry in all. [N]
    pub most: f64,
    /// The part that sets it.
    pub name: &'static str,
}

/// The pull that mast and pipe leave beyond the pick-up weight, for something that holds the string at a depth; the entry without which
/// it is not known.
pub(crate) fn pull_left<R: Recorder>(scene: &Scene, depth: f64, rec: &mut R) -> Result<PullLeft, &'static str> {
    let (fit, situation) = (scene.fit(), &scene.situation);
    let rig = &fit.rig;
    let lines = fit.lines_strung(situation.section, situation.operation);
    let Some(most) = rig.mast.rating(lines) else { return Err("rig.mast.hook_load") };
    let drag = scene.drag(rec);
    rec.heading("pull that is left");
    let travelling_weight = rec.take(TravellingWeight { block_weight: rig.block.weight, drive_weight: rig.drive.weight });
    let hook = rec.take(HookLoad { string_load: drag.surface_tension, travelling_weight });
    rec.given("rated static hook load of the mast at the lines strung", most, Kind::Force);
    rec.given("rating less hook load", most - hook, Kind::Force);
    let mut left = PullLeft { pull: most - hook, most, name: "pull that the mast leaves" };
    rec.given("share of the tension strength that may be used", PULL_SHARE, Kind::Fraction);
    for piece in scene.string().iter().filter(|piece| piece.top < depth) {
        let Pipe::Part(part) = piece.pipe else { continue };
        if !is_pipe(part) {
            continue;
        }
        rec.stretch(|| part.name.clone(), piece.top, piece.bottom);
        let Some(strength) = strength(part, rec) else { return Err("section[].string[].grade") };
        let tension = drag.at(piece.top).0;
        let most = PULL_SHARE * strength.tension;
        rec.given("effective tension at its top while pulling", tension, Kind::Force);
        rec.given("share of the strength less tension", most - tension, Kind::Force);
        if most - tension < left.pull {
            left = PullLeft { pull: most - tension, most, name: "pull that the pipe leaves" };
        }
    }
    rec.given("the least of them", left.pull, Kind::Force);
    Ok(left)
}

pub(super) fn pipe_strength<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let share = scene.fit().well.reserves.strength;
    along(scene, rec, |rec, strength, tension, torque, depth| {
        let Strength { tension: tension_strength, torsion: torsion_strength } = strength;
        let capacity = if torque > 0.0 {
            rec.take(TensionUnderTorsion { tension_strength, torque, torsion_strength })
        } else {
            tension_strength
        };
        let limit = Limit {
            capacity,
            reserve: share * tension_strength,
            name: "tension of the pipe body under this torque",
            source: "API RP 7G, from dimensions, grade and class",
        };
        Judged { demand: tension, limit, place: Place::Depth(depth), zero: 0.0 }
    })
}

pub(super) fn pipe_overpull<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let running_liner = scene.situation.operation == Operation::RunningCasing
        && scene.string().last().is_some_and(|piece| matches!(piece.pipe, Pipe::Part(_)));
    if scene.situation.operation.motion() != Motion::Up && !running_liner {
        return Answer::DoesNotArise("the string is not pulled; casing: see control/casing-tension");
    }
    let wanted = scene.fit().well.margins.overpull;
    rec.given("share of the tension strength that may be used", PULL_SHARE, Kind::Fraction);
    rec.given("overpull wanted", wanted, Kind::Force);
    rec.table("overpull left along the string", LEFT, || overpull_left(scene));
    along(scene, rec, |_, strength, tension, _, depth| {
        let capacity = PULL_SHARE * strength.tension;
        // The wanted overpull is what must be left, so it is the reserve and not part of the demand.
        let limit = Limit {
            capacity,
            reserve: wanted,
            name: "0.9 of the tension of the pipe body",
            source: "API RP 7G, from dimensions, grade and class; the share is common practice",
        };
        Judged { demand: tension, limit, place: Place::Depth(depth), zero: 0.0 }
    })
}

const LEFT: &[(&str, Kind)] = &[
    ("measured depth", Kind::Depth),
    ("effective tension", Kind::Force),
    ("may be", Kind::Force),
    ("overpull left", Kind::Force),
];

/// Depths apart at which the overpull that is left is shown. [m]
const STEP: f64 = 300.0;

/// The overpull that is left at both ends of every run of pipe and between them.
fn overpull_left(scene: &Scene) -> Vec<Vec<f64>> {
    let drag = scene.drag(&mut Off);
    let mut rows = Vec::new();
    for piece in scene.string().iter().rev() {
        let Pipe::Part(part) = piece.pipe else { continue };
        let Some(strength) = Some(part).filter(|part| is_pipe(part)).and_then(|part| strength(part, &mut Off)) else { continue };
        let steps = ((piece.bottom - piece.top) / STEP).ceil().max(1.0);
        for step in 0..=steps as usize {
            let depth = piece.top + (piece.bottom - piece.top) * step as f64 / steps;
            let (tension, capacity) = (drag.heaviest_at(depth).0, PULL_SHARE * strength.tension);
            rows.push(vec![depth, tension, capacity, capacity - tension]);
        }
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, sweep};
    use rigwright_physics::{Line, Working};

    const POUND_FORCE: f64 = 0.453_592_37 * rigwright_physics::STANDARD_GRAVITY;

    /// 5 in 19.50 S-135 premium: 560,800 lbf, printed to 100 (Workstrings International, Drill Pipe Performance
    /// Characteristics, 2011). A still string has no torque, so its whole tension strength is the capacity.
    #[test]
    fn published_workstrings_premium_pipe_is_the_capacity() {
        let fit = crate::example("ostrick");
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::Connection, 3000.0, 3000.0));
        let answer = pipe_strength(&scene, &mut Off);
        let capacity = answer.judged().unwrap().limit.capacity / POUND_FORCE;
        assert!((capacity - 560_800.0).abs() <= 50.0, "{capacity}");
        // With its working the same figure comes out, and the formulas are there to be followed.
        let mut working = Working::default();
        assert_eq!(pipe_strength(&scene, &mut working), answer);
        assert!(working.lines.len() > 10);
    }

    /// The overpull that is left is shown along the whole string, and is least where the judgement says.
    #[test]
    fn law_overpull_is_shown_everywhere() {
        let fit = crate::example("tolvane");
        let basis = Basis::new(&fit);
        let bottom = fit.well.total_depth();
        let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::PullingOut, bottom, bottom));
        let mut working = Working::default();
        let judged = *pipe_overpull(&scene, &mut working).judged().unwrap();
        let rows = working.lines.iter().find_map(|line| match line {
            Line::Table { title: "overpull left along the string", rows, .. } => Some(rows),
            _ => None,
        });
        let rows = rows.unwrap();
        let least = rows.iter().map(|row| row[3]).fold(f64::INFINITY, f64::min);
        assert!((least / judged.left() - 1.0).abs() < 1e-9, "{least} {}", judged.left());
        assert!(rows.len() > 10 && rows.windows(2).all(|pair| pair[0][0] <= pair[1][0]), "from the top down");
    }

    #[test]
    fn law_overpull_flips_where_the_pull_left_equals_the_wanted_one() {
        let mut fit = crate::example("ostrick");
        let at = |fit: &rigwright_well::Fit| {
            let basis = Basis::new(fit);
            let scene = Scene::new(&basis, sweep::situation(fit, 2, Operation::PullingOut, 3300.0, 3300.0));
            *pipe_overpull(&scene, &mut Off).judged().unwrap()
        };
        let left = at(&fit).limit.capacity - at(&fit).demand;
        fit.well.margins.overpull = left * (1.0 - 1e-12);
        assert!(at(&fit).room() >= 1.0);
        fit.well.margins.overpull = left * (1.0 + 1e-12);
        assert!(at(&fit).room() < 1.0);
    }
}
