//! The hook load, and what mast, crown and each hoisting part carry of it.

use crate::answer::worse;
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::hoisting::{BlockMotion, BuoyancyFactor, HookLoad, Tackle, TravellingWeight};
use rigwright_physics::tubular::STEEL_DENSITY;
use rigwright_physics::{Kind, Recorder};
use rigwright_well::{DriveKind, Operation};

/// Why a well that is shut in is not asked.
pub(super) const SHUT_IN: Answer = Answer::DoesNotArise("the string hangs still, as at a connection");

/// Load of the string alone and on the hook. [N]
#[derive(Clone, Copy)]
pub(super) struct Load {
    /// On the elevators or the top drive: the string's own.
    pub(super) string: f64,
    /// Weight of block, hook and top drive.
    travelling: f64,
    /// On the lines: both together.
    pub(super) hook: f64,
}

/// The load of the situation.
pub(super) fn load<R: Recorder>(scene: &Scene, rec: &mut R) -> Load {
    let rig = &scene.fit().rig;
    let string = scene.drag(rec).picked_up_tension;
    rec.heading("hook load");
    rec.given("effective tension of the string at surface", string, Kind::Force);
    let travelling = rec.take(TravellingWeight { block_weight: rig.block.weight, drive_weight: rig.drive.weight });
    let hook = rec.take(HookLoad { string_load: string, travelling_weight: travelling });
    Load { string, travelling, hook }
}

/// Share of its weight in air that the string has in the section's mud.
pub(super) fn buoyancy<R: Recorder>(scene: &Scene, rec: &mut R) -> f64 {
    rec.take(BuoyancyFactor { mud_density: scene.section().mud.weight, steel_density: STEEL_DENSITY })
}

/// Lines strung for what hangs in them.
pub(super) fn strung(scene: &Scene) -> u32 {
    scene.fit().lines_strung(scene.situation.section, scene.situation.operation)
}

/// How the line is strung for what hangs in it.
pub(crate) fn tackle(scene: &Scene) -> Tackle {
    Tackle { lines: f64::from(strung(scene)), sheave_factor: scene.fit().rig.line.sheave_factor }
}

/// What the block does under the string's load. Casing is picked up before it is lowered.
pub(super) fn block_motion(operation: Operation) -> BlockMotion {
    match operation {
        Operation::PullingOut | Operation::RunningCasing => BlockMotion::Hoisting,
        Operation::RunningIn => BlockMotion::Lowering,
        Operation::Drilling | Operation::Connection | Operation::Circulating | Operation::ShutIn => BlockMotion::Standing,
    }
}

/// A limit of the rig with a wanted share of it left over.
pub(super) fn rated(capacity: f64, share: f64, name: &'static str, source: &'static str) -> Limit {
    // A reserve is never nought, so that a limit of nought is passed by any load.
    Limit { capacity, reserve: (share * capacity).max(1.0), name, source }
}

/// The mast's name with its lines: an even number from 2 to 20, as the rig file is checked for.
pub(super) fn mast_at(lines: u32) -> &'static str {
    match lines {
        4 => "mast at 4 lines",
        6 => "mast at 6 lines",
        8 => "mast at 8 lines",
        10 => "mast at 10 lines",
        12 => "mast at 12 lines",
        14 => "mast at 14 lines",
        16 => "mast at 16 lines",
        _ => "mast at the lines strung",
    }
}

fn at_surface(demand: f64, limit: Limit) -> Judged {
    Judged { demand, limit, place: Place::Surface, zero: 0.0 }
}

pub(super) fn hook_load<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.operation == Operation::ShutIn {
        return SHUT_IN;
    }
    let fit = scene.fit();
    let lines = strung(scene);
    let Some(capacity) = fit.rig.mast.rating(lines) else { return Answer::Missing(vec!["rig.mast.hook_load"]) };
    let hook = load(scene, rec).hook;
    rec.given("rated static hook load of the mast at the lines strung", capacity, Kind::Force);
    Answer::Judged(at_surface(hook, rated(capacity, fit.well.reserves.load, mast_at(lines), "nameplate of the mast")))
}

pub(super) fn crown_load<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.operation == Operation::ShutIn {
        return SHUT_IN;
    }
    let fit = scene.fit();
    let Some(capacity) = fit.rig.crown.rating else { return Answer::Missing(vec!["rig.crown.rating"]) };
    let hook = load(scene, rec).hook;
    let demand = tackle(scene).derrick_load(hook, block_motion(scene.situation.operation), rec);
    rec.given("rating of the crown block", capacity, Kind::Force);
    Answer::Judged(at_surface(demand, rated(capacity, fit.well.reserves.load, "crown block", "nameplate of the crown block")))
}

pub(super) fn hoist_parts<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let operation = scene.situation.operation;
    if operation == Operation::ShutIn {
        return SHUT_IN;
    }
    let fit = scene.fit();
    let (rig, share) = (&fit.rig, fit.well.reserves.load);
    let Load { string, travelling, hook } = load(scene, rec);
    // While it turns, the string hangs on the drive and not in the elevators.
    let turning = matches!(operation, Operation::Drilling | Operation::Circulating);
    let under_hook = hook - rig.block.weight;
    let elevators = match rig.casing_elevators.filter(|_| operation == Operation::RunningCasing) {
        Some(rating) => ("elevators for casing", string, Some(rating), "rig.elevators.casing_rating", true),
        None => ("elevators", string, rig.elevators, "rig.elevators.rating", !turning),
    };
    let (drive, hook_row, block) = (
        ("top drive", string, rig.drive.rating, "rig.drive.rating", rig.drive.kind == DriveKind::TopDrive),
        ("hook", under_hook, rig.block.hook_rating, "rig.block.hook_rating", true),
        ("travelling block", hook, rig.block.rating, "rig.block.rating", true),
    );
    rec.given("weight of block, hook and top drive", travelling, Kind::Force);
    let mut missing = Vec::new();
    let mut worst: Option<Judged> = None;
    for (name, demand, rating, entry, carries) in [elevators, drive, hook_row, block] {
        match rating {
            _ if !carries => {}
            None => missing.push(entry),
            Some(capacity) => {
                rec.heading(name);
                rec.given("load on this part", demand, Kind::Force);
                rec.given("rating of this part", capacity, Kind::Force);
                worst = worse(worst, at_surface(demand, rated(capacity, share, name, "nameplate of the part")));
            }
        }
    }
    match worst {
        // A part that nobody knows may be the weaker one, unless a known one is passed already.
        Some(judged) if missing.is_empty() || judged.room() < 0.0 => Answer::Judged(judged),
        _ => Answer::Missing(missing),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, Verdict, sweep};
    use rigwright_physics::{Off, STANDARD_GRAVITY, Working};
    use rigwright_well::Fit;

    const KLBF: f64 = 453.592_37 * STANDARD_GRAVITY;
    const FOOT: f64 = 0.3048;

    fn ask(fit: &Fit, question: fn(&Scene, &mut Off) -> Answer, operation: Operation, depth: f64) -> Answer {
        let basis = Basis::new(fit);
        question(&Scene::new(&basis, sweep::situation(fit, 2, operation, depth, depth)), &mut Off)
    }

    /// A vertical hole has no drag, so the hook load is air weight times buoyancy factor with block and top drive:
    /// reckoned by hand from the lines of the example.
    #[test]
    fn law_hook_load_of_a_vertical_string_by_hand() {
        let mut fit = crate::example("ostrick");
        let depth = 3000.0;
        // Mud without a flow curve neither lifts nor drags, and no jets push on the bit.
        fit.well.sections[2].mud.rheogram.readings.clear();
        fit.well.sections[2].drilling.flow_rate = 0.0;
        let section = &fit.well.sections[2];
        let mut left = depth;
        let mut mass = 0.0;
        for part in &section.string {
            let length = part.length.min(left);
            mass += length * part.linear_mass;
            left -= length;
        }
        // 490 lb/ft³ of steel, 22 klbf of block and hook, 24 klbf of top drive.
        let factor = 1.0 - section.mud.weight / (490.0 * 0.453_592_37 / FOOT.powi(3));
        let expected = mass * factor * STANDARD_GRAVITY + 46.0 * KLBF;
        for operation in [Operation::Connection, Operation::PullingOut, Operation::RunningIn] {
            let answer = ask(&fit, hook_load::<Off>, operation, depth);
            let judged = answer.judged().unwrap();
            assert!((judged.demand / expected - 1.0).abs() < 1e-9, "{operation:?}");
            assert!((judged.limit.capacity / KLBF - 680.0).abs() < 1e-9, "the nameplate at 10 lines");
        }
        let drilling = ask(&fit, hook_load::<Off>, Operation::Drilling, depth);
        let lighter = expected - section.drilling.weight_on_bit;
        assert!((drilling.judged().unwrap().demand / lighter - 1.0).abs() < 1e-9);
    }

    #[test]
    fn law_the_verdict_flips_where_the_rating_is_met() {
        let mut fit = crate::example("ostrick");
        let demand = ask(&fit, hook_load::<Off>, Operation::PullingOut, 3000.0).judged().unwrap().demand;
        let verdict = |fit: &Fit| ask(fit, hook_load::<Off>, Operation::PullingOut, 3000.0).verdict();
        fit.rig.mast.hook_load = vec![(fit.rig.line.strung, demand * (1.0 - 1e-12))];
        assert_eq!(verdict(&fit), Verdict::Short);
        fit.rig.mast.hook_load = vec![(fit.rig.line.strung, demand * (1.0 + 1e-12))];
        assert_eq!(verdict(&fit), Verdict::Thin);
        fit.rig.mast.hook_load = vec![(fit.rig.line.strung, demand / (1.0 - fit.well.reserves.load) * (1.0 + 1e-12))];
        assert_eq!(verdict(&fit), Verdict::Holds);
        fit.rig.mast.hook_load = vec![(fit.rig.line.strung + 2, 1e9)];
        assert_eq!(verdict(&fit), Verdict::Unknown, "a rating never carries over to other lines");
    }

    #[test]
    fn law_an_unknown_part_is_unknown_until_a_known_one_is_short() {
        let mut fit = crate::example("ostrick");
        let answer = |fit: &Fit| ask(fit, hoist_parts::<Off>, Operation::PullingOut, 3000.0);
        assert!(answer(&fit).judged().is_some());
        fit.rig.elevators = None;
        assert_eq!(answer(&fit), Answer::Missing(vec!["rig.elevators.rating"]));
        fit.rig.block.rating = Some(1000.0);
        assert_eq!(answer(&fit).judged().unwrap().limit.name, "travelling block");
        assert_eq!(ask(&fit, hoist_parts::<Off>, Operation::ShutIn, 3000.0), SHUT_IN);
    }

    /// API RP 9B, figure 1 case A, and the dead line of the same block: hoisting on 10 lines the crown carries
    /// 1 + 0.123 + 0.083 of the hook load.
    #[test]
    fn published_rp_9b_crown_load_on_ten_lines() {
        let fit = crate::example("ostrick");
        let hook = ask(&fit, hook_load::<Off>, Operation::PullingOut, 3000.0).judged().unwrap().demand;
        let crown = ask(&fit, crown_load::<Off>, Operation::PullingOut, 3000.0).judged().unwrap().demand;
        assert!((crown / hook - 1.206).abs() < 1e-3, "three digits are printed of each factor");
    }

    #[test]
    fn law_the_working_gives_the_same_answer() {
        let fit = crate::example("ostrick");
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::RunningCasing, 3000.0, 2500.0));
        let mut working = Working::default();
        assert_eq!(hook_load(&scene, &mut working), hook_load(&scene, &mut Off));
        assert_eq!(crown_load(&scene, &mut working), crown_load(&scene, &mut Off));
        assert_eq!(hoist_parts(&scene, &mut working), hoist_parts(&scene, &mut Off));
        assert!(working.lines.len() > 20);
    }
}
