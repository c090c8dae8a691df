//! The drilling line and the drawworks: strength, pull, power, overpull, and how many lines to string.

use super::load::{block_motion, load, mast_at, rated, strung, tackle};
use crate::{Answer, Judged, Limit, Place, Scene, sweep, worst};
use rigwright_physics::hoisting::{AllowedLinePull, BlockMotion, DrawworksPower, HookLoadByFastLine, LineDesignFactor, Tackle};
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::{Fit, Operation};

/// Why the line is asked only where the block rises.
const NO_HOISTING: Answer = Answer::DoesNotArise("the block does not lift the string; the line pulls more on the way out");

const CERTIFICATE: &str = "certificate of the line over its design factor (API RP 9B, factors from memory)";
const DRAWWORKS: &str = "nameplate of the drawworks";

/// Smallest design factor of the line in an operation.
fn design_factor(fit: &Fit, operation: Operation) -> f64 {
    let line = &fit.rig.line;
    if operation == Operation::RunningCasing { line.casing_design_factor } else { line.design_factor }
}

fn lifts(operation: Operation) -> bool {
    matches!(operation, Operation::PullingOut | Operation::RunningCasing)
}

pub(super) fn line_strength<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let operation = scene.situation.operation;
    if !lifts(operation) {
        return NO_HOISTING;
    }
    let fit = scene.fit();
    let hook = load(scene, rec).hook;
    rec.heading("fast line against the line's strength");
    let fast_line = tackle(scene).fast_line(hook, block_motion(operation), rec);
    let line_strength = fit.rig.line.strength;
    if R::ON {
        // The factor that the crew knows the line by; the judgement is on the pull.
        rec.take(LineDesignFactor { line_strength, fast_line: fast_line.max(1.0) });
    }
    let capacity = rec.take(AllowedLinePull { line_strength, design_factor: design_factor(fit, operation) });
    let name = match operation {
        Operation::RunningCasing => "drilling line at its design factor for casing",
        _ => "drilling line at its design factor",
    };
    Answer::Judged(pull(fast_line, rated(capacity, fit.well.reserves.machinery, name, CERTIFICATE)))
}

pub(super) fn line_pull<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let operation = scene.situation.operation;
    if !lifts(operation) {
        return NO_HOISTING;
    }
    let fit = scene.fit();
    let hook = load(scene, rec).hook;
    rec.heading("fast line against the pull of the drawworks");
    let fast_line = tackle(scene).fast_line(hook, block_motion(operation), rec);
    let capacity = *fit.rig.drawworks.line_pull;
    rec.given("largest pull of the drawworks on the fast line", capacity, Kind::Force);
    Answer::Judged(pull(fast_line, rated(capacity, fit.well.reserves.machinery, "line pull of the drawworks", DRAWWORKS)))
}

pub(super) fn drawworks_power<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.operation != Operation::PullingOut {
        return Answer::DoesNotArise("the string is not pulled out");
    }
    let fit = scene.fit();
    let drawworks = &fit.rig.drawworks;
    let hook_load = load(scene, rec).hook.max(0.0);
    rec.heading("power to lift the string at the wanted speed");
    let tackle_efficiency = tackle(scene).efficiency(rec);
    let demand = rec.take(DrawworksPower {
        hook_load,
        block_speed: *drawworks.hoisting_speed,
        tackle_efficiency,
        drum_efficiency: drawworks.efficiency,
    });
    rec.given("input power of the drawworks", drawworks.power, Kind::Power);
    let limit = rated(drawworks.power, fit.well.reserves.machinery, "drawworks", DRAWWORKS);
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

pub(super) fn overpull<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if !lifts(scene.situation.operation) {
        return Answer::DoesNotArise("the string is not picked up");
    }
    let fit = scene.fit();
    let (rig, lines) = (&fit.rig, strung(scene));
    let Some(mast) = rig.mast.rating(lines) else { return Answer::Missing(vec!["rig.mast.hook_load"]) };
    let hook = load(scene, rec).hook;
    let tackle = tackle(scene);
    rec.heading("largest hook load of mast, line and drawworks");
    rec.given("rated static hook load of the mast at the lines strung", mast, Kind::Force);
    let efficiency = tackle.efficiency(rec);
    let lifted = |rec: &mut R, fast_line: f64| rec.take(HookLoadByFastLine { fast_line, lines: tackle.lines, efficiency });
    let allowed = rec.take(AllowedLinePull { line_strength: rig.line.strength, design_factor: rig.line.casing_design_factor });
    let by_line = lifted(rec, allowed);
    rec.given("largest pull of the drawworks on the fast line", *rig.drawworks.line_pull, Kind::Force);
    let by_drawworks = lifted(rec, *rig.drawworks.line_pull);
    let wanted = fit.well.margins.overpull;
    rec.given("overpull wanted", wanted, Kind::Force);
    // The wanted overpull is what must be left, so it is the reserve and not part of the demand.
    let limit = |capacity: f64, name, source| Limit { capacity, reserve: wanted.max(1.0), name, source };
    let limits = [
        limit(mast, mast_at(lines), "nameplate of the mast"),
        limit(by_line, "hook load at the line's design factor for overpull", CERTIFICATE),
        limit(by_drawworks, "hook load at the drawworks' largest pull", DRAWWORKS),
    ];
    match worst(limits.map(|limit| pull(hook, limit))) {
        Some(judged) => Answer::Judged(judged),
        None => Answer::DoesNotArise("nothing limits the pull"),
    }
}

/// The heaviest loads of a section: the string pulled from its end and the casing picked up at its shoe. [N]
#[derive(Clone, Copy)]
pub(super) struct Heaviest {
    pub(super) string: Option<f64>,
    pub(super) casing: Option<f64>,
}

fn heaviest<R: Recorder>(scene: &Scene, rec: &mut R) -> Heaviest {
    let fit = scene.fit();
    let (section, bottom) = (scene.situation.section, scene.section().bottom);
    let mut hung = |operation, bit_depth| {
        let situation = sweep::situation(fit, section, operation, bottom, bit_depth);
        load(&Scene::new(scene.basis, situation), rec).hook
    };
    let string = hung(Operation::PullingOut, bottom);
    let casing = scene.section().casing.as_ref().map(|casing| hung(Operation::RunningCasing, casing.shoe));
    Heaviest { string: Some(string), casing }
}

/// Mast, line and drawworks with the line strung in some way, under the heaviest loads.
pub(super) fn judge_lines<R: Recorder>(fit: &Fit, heaviest: &Heaviest, (lines, rating): (u32, f64), rec: &mut R) -> Vec<Judged> {
    let (reserves, rig) = (&fit.well.reserves, &fit.rig);
    let tackle = Tackle { lines: f64::from(lines), sheave_factor: rig.line.sheave_factor };
    let mut judgements = Vec::with_capacity(6);
    let hung = [(heaviest.string, Operation::PullingOut), (heaviest.casing, Operation::RunningCasing)];
    for (hook, operation) in hung {
        let Some(hook) = hook else { continue };
        rec.given("hook load", hook, Kind::Force);
        judgements.push(pull(hook, rated(rating, reserves.load, mast_at(lines), "nameplate of the mast")));
        let fast_line = tackle.fast_line(hook, BlockMotion::Hoisting, rec);
        let line_strength = rig.line.strength;
        let allowed = rec.take(AllowedLinePull { line_strength, design_factor: design_factor(fit, operation) });
        judgements.push(pull(fast_line, rated(allowed, reserves.machinery, "drilling line at its design factor", CERTIFICATE)));
        let drum = rated(*rig.drawworks.line_pull, reserves.machinery, "line pull of the drawworks", DRAWWORKS);
        judgements.push(pull(fast_line, drum));
    }
    judgements
}

const CHOICES: &[(&str, Kind)] = &[
    ("lines", Kind::Count),
    ("mast rating", Kind::Force),
    ("room of the mast", Kind::Ratio),
    ("room of the line", Kind::Ratio),
    ("room of the drawworks", Kind::Ratio),
];

pub(super) fn lines_to_string<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let lines = fit.rig.line.strung;
    let Some(rating) = fit.rig.mast.rating(lines) else { return Answer::Missing(vec!["rig.mast.hook_load"]) };
    let heaviest = heaviest(scene, rec);
    rec.heading("the lines that are strung");
    let mut judgements = Vec::with_capacity(6);
    match scene.section().casing.as_ref().and_then(|casing| casing.lines).filter(|others| *others != lines) {
        None => judgements.extend(judge_lines(fit, &heaviest, (lines, rating), rec)),
        Some(others) => {
            let Some(rating_for_casing) = fit.rig.mast.rating(others) else { return Answer::Missing(vec!["rig.mast.hook_load"]) };
            judgements.extend(judge_lines(fit, &Heaviest { casing: None, ..heaviest }, (lines, rating), rec));
            rec.heading("the lines that are strung for the casing");
            judgements.extend(judge_lines(fit, &Heaviest { string: None, ..heaviest }, (others, rating_for_casing), rec));
        }
    }
    let mut judged = worst(judgements);
    let most = 2 * fit.rig.block.sheaves.min(fit.rig.crown.sheaves.saturating_sub(1));
    let fitting = || fit.rig.mast.hook_load.iter().filter(move |(lines, _)| *lines <= most);
    if let Some(judged) = judged.as_mut().filter(|judged| judged.room() < 0.0)
        && fitting().all(|choice| judge_lines(fit, &heaviest, *choice, &mut Off).iter().any(|one| one.room() < 0.0))
    {
        rec.note(|| {
            "No number of lines that fits and is rated carries this: take a lighter string, float the casing, or a stronger rig."
                .into()
        });
        judged.limit.name = "no lines that fit carry it: take a lighter string or a stronger rig";
    }
    rec.heading("every choice that the mast is rated for and that fits the sheaves; room is counted in wanted reserves");
    rec.table("lines to string", CHOICES, || {
        let row = |choice: &(u32, f64)| {
            let judgements = judge_lines(fit, &heaviest, *choice, &mut Off);
            let room = |which: usize| judgements.iter().skip(which).step_by(3).map(Judged::room).fold(f64::INFINITY, f64::min);
            vec![f64::from(choice.0), choice.1, room(0), room(1), room(2)]
        };
        fitting().map(row).collect()
    });
    judged.map_or(Answer::DoesNotArise("nothing hangs in the lines"), Answer::Judged)
}

fn pull(demand: f64, limit: Limit) -> Judged {
    Judged { demand, limit, place: Place::Surface, zero: 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, Verdict};
    use rigwright_physics::{Line, Working};

    fn ask(fit: &Fit, question: fn(&Scene, &mut Off) -> Answer, operation: Operation) -> Answer {
        let basis = Basis::new(fit);
        let bottom = fit.well.sections[2].bottom;
        question(&Scene::new(&basis, sweep::situation(fit, 2, operation, bottom, bottom)), &mut Off)
    }

    fn demand(fit: &Fit, question: fn(&Scene, &mut Off) -> Answer, operation: Operation) -> f64 {
        ask(fit, question, operation).judged().unwrap().demand
    }

    /// API RP 9B, 2:3.3.4: on 10 lines the fast line pulls 0.123 of the hook load; a line of 192,000 lbf bears a third
    /// of its strength.
    #[test]
    fn published_rp_9b_fast_line_on_ten_lines() {
        let fit = crate::example("ostrick");
        let hook = demand(&fit, crate::hoisting::load::hook_load::<Off>, Operation::PullingOut);
        let judged = *ask(&fit, line_strength::<Off>, Operation::PullingOut).judged().unwrap();
        assert!((judged.demand / hook - 0.123).abs() < 0.0005);
        let pound_force = 0.453_592_37 * rigwright_physics::STANDARD_GRAVITY;
        assert!((judged.limit.capacity / pound_force - 64_000.0).abs() < 1e-6);
        assert!((demand(&fit, line_pull::<Off>, Operation::PullingOut) / judged.demand - 1.0).abs() < 1e-12);
    }

    #[test]
    fn law_casing_takes_its_own_design_factor() {
        let fit = crate::example("ostrick");
        let capacity = |operation| ask(&fit, line_strength::<Off>, operation).judged().unwrap().limit.capacity;
        let ratio = capacity(Operation::RunningCasing) / capacity(Operation::PullingOut);
        assert!((ratio - fit.rig.line.design_factor / fit.rig.line.casing_design_factor).abs() < 1e-12);
        assert_eq!(ask(&fit, line_strength::<Off>, Operation::Drilling), NO_HOISTING);
    }

    /// The power is hook load times speed over both efficiencies, so the verdict flips at that power.
    #[test]
    fn law_drawworks_power_flips_at_its_limit() {
        let mut fit = crate::example("ostrick");
        let needed = demand(&fit, drawworks_power::<Off>, Operation::PullingOut);
        let hook = demand(&fit, crate::hoisting::load::hook_load::<Off>, Operation::PullingOut);
        let fast = demand(&fit, line_pull::<Off>, Operation::PullingOut);
        // The same power at the drum: pull of the fast line times its speed.
        let line_speed = *fit.rig.drawworks.hoisting_speed * f64::from(fit.rig.line.strung);
        assert!((fast * line_speed / fit.rig.drawworks.efficiency / needed - 1.0).abs() < 1e-9, "{hook}");
        fit.rig.drawworks.power = needed * (1.0 - 1e-12);
        assert_eq!(ask(&fit, drawworks_power::<Off>, Operation::PullingOut).verdict(), Verdict::Short);
        fit.rig.drawworks.power = needed * (1.0 + 1e-12);
        assert_eq!(ask(&fit, drawworks_power::<Off>, Operation::PullingOut).verdict(), Verdict::Thin);
    }

    #[test]
    fn law_overpull_flips_where_the_pull_left_equals_the_wanted_one() {
        let mut fit = crate::example("ostrick");
        let judged = *ask(&fit, overpull::<Off>, Operation::PullingOut).judged().unwrap();
        let left = judged.limit.capacity - judged.demand;
        fit.well.margins.overpull = left * (1.0 - 1e-12);
        assert_eq!(ask(&fit, overpull::<Off>, Operation::PullingOut).verdict(), Verdict::Holds);
        fit.well.margins.overpull = left * (1.0 + 1e-12);
        assert_eq!(ask(&fit, overpull::<Off>, Operation::PullingOut).verdict(), Verdict::Thin);
        // At the hook load where the line governs, its fast line is at the design factor for overpull.
        *fit.rig.drawworks.line_pull = 1e9;
        fit.rig.mast.hook_load = vec![(fit.rig.line.strung, 1e9)];
        let by_line = ask(&fit, overpull::<Off>, Operation::PullingOut).judged().unwrap().limit.capacity;
        let tackle = Tackle { lines: f64::from(fit.rig.line.strung), sheave_factor: fit.rig.line.sheave_factor };
        let fast = tackle.fast_line(by_line, BlockMotion::Hoisting, &mut Off);
        assert!((fast * fit.rig.line.casing_design_factor / fit.rig.line.strength - 1.0).abs() < 1e-12);
    }

    /// A string that no line-up carries is said to be so, with what to do about it.
    #[test]
    fn law_a_string_too_heavy_for_any_lines_says_what_to_do() {
        let mut fit = crate::example("ostrick");
        fit.well.sections[2].string[1].linear_mass *= 40.0;
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
        let judged = *lines_to_string(&scene, &mut Off).judged().unwrap();
        assert!(judged.room() < 0.0 && judged.limit.name.contains("take a lighter string"), "{judged:?}");
        // Where another number of lines serves, that is the remedy and the name stays.
        let mut fit = crate::example("ostrick");
        let carries = ask(&fit, crate::hoisting::load::hook_load::<Off>, Operation::PullingOut).judged().unwrap().demand;
        fit.rig.mast.hook_load = vec![(10, 0.9 * carries), (12, 3.0 * carries)];
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
        assert_eq!(lines_to_string(&scene, &mut Off).judged().unwrap().limit.name, "mast at 10 lines");
    }

    /// The judgement at the strung lines is the worst of what the single questions say of the same loads, and the
    /// table has a row for every rated choice that fits.
    #[test]
    fn law_lines_to_string_gathers_the_single_questions() {
        let fit = crate::example("ostrick");
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
        let mut working = Working::default();
        let answer = lines_to_string(&scene, &mut working);
        assert_eq!(answer, lines_to_string(&scene, &mut Off));
        let singles =
            [crate::hoisting::load::hook_load::<Off> as fn(&Scene, &mut Off) -> Answer, line_strength::<Off>, line_pull::<Off>];
        let mut rooms = Vec::new();
        for question in singles {
            rooms.push(ask(&fit, question, Operation::PullingOut).room().unwrap());
            let shoe = fit.well.sections[2].casing.as_ref().unwrap().shoe;
            let at_shoe = sweep::situation(&fit, 2, Operation::RunningCasing, fit.well.sections[2].bottom, shoe);
            rooms.push(question(&Scene::new(&basis, at_shoe), &mut Off).room().unwrap());
        }
        let least = rooms.into_iter().fold(f64::INFINITY, f64::min);
        assert!((answer.room().unwrap() - least).abs() < 1e-12);
        let rows = working.lines.iter().find_map(|line| match line {
            Line::Table { title: "lines to string", rows, .. } => Some(rows.clone()),
            _ => None,
        });
        let rows = rows.unwrap();
        assert_eq!(rows.len(), 3, "8, 10 and 12 lines fit 6 and 7 sheaves");
        let strung = rows.iter().find(|row| (row[0] - f64::from(fit.rig.line.strung)).abs() < 1e-9).unwrap();
        let least = strung[2].min(strung[3]).min(strung[4]);
        assert!((least - answer.room().unwrap()).abs() < 1e-12);
    }
}
