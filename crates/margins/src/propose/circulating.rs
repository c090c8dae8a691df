//! Mud weight, flow, pumps, liners and nozzles of a section found together: the fewest and easiest turns that keep the window,
//! clean the hole, and stay within pumps, pressure and sets; or, where no setting does, which limit to relax first.
//!
//! Larger nozzles only ever take pressure off, and more flow only ever cleans better; the search leans on both.

use super::ground::{Ground, verdict, word};
use super::probes::{AREA, FLOW, Governing, Grid, LINER, PUMPS, Place, Stage, WEIGHT};
use super::{Job, LEVELS, Outcome, Relax, Step};
use crate::Verdict;
use rigwright_well::Fit;
use rigwright_wellfile::{Ease, Knob};

/// Settings of one cost level that are reviewed, to find one that spoils nothing.
const KEPT: usize = 4;
/// Rounds of asking everywhere and searching again.
pub(super) const ROUNDS: usize = 12;
/// Levels below the limits, for what is short anyway. [reserves]
const BELOW: [f64; 7] = [-0.25, -0.5, -1.0, -2.0, -4.0, -8.0, -16.0];
/// Limits that are let go one after the other at most.
const MOST_RELAXED: usize = 4;

/// What a setting costs: whether the mud weight is turned, which reaches into every other system; the hardest of its turns; how
/// many there are; how many steps they take together.
type Cost = (bool, Ease, usize, usize);

/// A setting with its cost and what governs there.
pub(super) struct Found {
    pub(super) place: Place,
    cost: Cost,
    pub(super) governing: Vec<Governing>,
}

/// The step of a section.
pub(super) fn step(ground: &Ground, section: usize, grid: &mut Grid) -> (Step, Option<Fit>) {
    let new = |outcome| Step::new(Job::Circulating, Some(section), outcome);
    let now = smallest(&grid.check(grid.here()), &[]);
    if !grid.missing.is_empty() && now >= 0.0 {
        return (new(Outcome::Unknown(grid.missing.clone())), None);
    }
    if now.is_infinite() {
        return (new(Verdict::DoesNotArise.into()), None);
    }
    // What is thin stays so unless all that is wanted can be had; what is short is brought as far up as it goes.
    for level in LEVELS.into_iter().filter(|level| *level >= 1.0 || now < 0.0) {
        let found = solve(grid, &floors(grid, level, &[]), KEPT);
        let Some(best) = pick(ground, section, grid, found) else { continue };
        let turns = turns_of(grid, best.place);
        if turns.is_empty() {
            return (new(verdict(now).into()), None);
        }
        let (fit, turns) = ground.turned(&turns, section);
        let word = word(smallest(&best.governing, &[]), &grid.missing);
        return (Step { turns, ..new(Outcome::Turns(word)) }, Some(fit));
    }
    if now >= 0.0 {
        return (new(verdict(now).into()), None);
    }
    let outcome = if grid.worn_out() { Outcome::GaveUp } else { Outcome::Nothing };
    (Step { relax: relax(grid), ..new(outcome) }, None)
}

/// The same room wanted of every limit; of some none.
fn floors(grid: &Grid, level: f64, dropped: &[usize]) -> Vec<f64> {
    let floor = |limit| if dropped.contains(&limit) { f64::NEG_INFINITY } else { level };
    (0..grid.limits.len()).map(floor).collect()
}

/// Of settings that keep a level, the one that spoils least, the cheaper of equals.
fn pick(ground: &Ground, section: usize, grid: &Grid, found: Vec<Found>) -> Option<Found> {
    let single = found.len() == 1;
    let rated = found.into_iter().map(|found| {
        let turns = turns_of(grid, found.place);
        if single || turns.is_empty() {
            return (0, found);
        }
        let (fit, _) = ground.turned(&turns, section);
        let after = crate::Review::without_remedies(&fit);
        (super::ground::changes(&ground.review, &after).1.len(), found)
    });
    rated.reduce(|best, next| if (next.0, next.1.cost) < (best.0, best.1.cost) { next } else { best }).map(|(_, found)| found)
}

/// The knobs that a place turns, with their values.
pub(super) fn turns_of(grid: &Grid, place: Place) -> Vec<(&'static Knob, f64)> {
    let axes = grid.axes.iter().zip(place);
    axes.filter(|(axis, at)| *at != axis.here).map(|(axis, at)| (axis.knob, axis.values[at])).collect()
}

fn smallest(governing: &[Governing], dropped: &[usize]) -> f64 {
    let kept = governing.iter().enumerate().filter(|(index, _)| !dropped.contains(index));
    kept.map(|(_, one)| one.room).fold(f64::INFINITY, f64::min)
}

/// Settings that keep the floors in every situation, cheapest first; none where the search proves that there is none.
pub(super) fn solve(grid: &mut Grid, floors: &[f64], keep: usize) -> Vec<Found> {
    for _ in 0..ROUNDS {
        let candidates = search(grid, floors, keep);
        let mut found = Vec::with_capacity(candidates.len());
        let first = candidates.first().map(|(_, place)| *place);
        for (cost, place) in candidates {
            let governing = grid.check(place);
            if governing.iter().zip(floors).all(|(one, floor)| one.room >= *floor) {
                found.push(Found { place, cost, governing });
            }
        }
        let holds = |place| found.iter().any(|found: &Found| found.place == place);
        if first.is_none_or(holds) || grid.worn_out() {
            return found;
        }
    }
    Vec::new()
}

/// What a place costs.
fn cost(grid: &Grid, place: Place) -> Cost {
    let axes = grid.axes.iter().zip(place).filter(|(axis, at)| *at != axis.here);
    let start = (place[WEIGHT] != grid.axes[WEIGHT].here, Ease::Today, 0, 0);
    axes.fold(start, |(mud, ease, knobs, steps), (axis, at)| (mud, ease.max(axis.knob.ease), knobs + 1, steps + axis.steps(at)))
}

/// The cheapest settings that keep the floors on the probes, cheapest first.
fn search(grid: &mut Grid, floors: &[f64], keep: usize) -> Vec<(Cost, Place)> {
    let mut kept: Vec<(Cost, Place)> = Vec::with_capacity(keep + 1);
    let here = grid.here();
    let [weights, flows] = [WEIGHT, FLOW].map(|axis| grid.axes[axis].nearest_first());
    let pumps = pump_settings(grid);
    for weight in weights {
        let at_weight = set(here, WEIGHT, weight);
        if too_dear(&kept, keep, cost(grid, at_weight)) {
            break;
        }
        if grid.worn_out() {
            break;
        }
        if !passes(grid, Stage::Weight, at_weight, floors) {
            continue;
        }
        let mut too_little: Option<usize> = None;
        for flow in &flows {
            let at_flow = set(at_weight, FLOW, *flow);
            if too_dear(&kept, keep, cost(grid, at_flow)) {
                break;
            }
            if too_little.is_some_and(|least| *flow <= least) {
                continue;
            }
            if !pumps.iter().any(|pump| passes(grid, Stage::Pumps, with_pumps(at_flow, *pump), floors)) {
                continue;
            }
            if !passes(grid, Stage::Flow, at_flow, floors) {
                if cleans_too_little(grid, at_flow, floors) {
                    too_little = Some(too_little.map_or(*flow, |least| least.max(*flow)));
                }
                continue;
            }
            for pump in &pumps {
                let at_pump = with_pumps(at_flow, *pump);
                if too_dear(&kept, keep, cost(grid, at_pump)) || !passes(grid, Stage::Pumps, at_pump, floors) {
                    continue;
                }
                if let Some(place) = smallest_turn_of_nozzles(grid, at_pump, floors) {
                    let entry = (cost(grid, place), place);
                    let at = kept.partition_point(|one| *one <= entry);
                    kept.insert(at, entry);
                    kept.truncate(keep);
                }
            }
        }
    }
    kept
}

fn set(mut place: Place, axis: usize, at: usize) -> Place {
    place[axis] = at;
    place
}

fn with_pumps(place: Place, (liner, pumps): (usize, usize)) -> Place {
    set(set(place, LINER, liner), PUMPS, pumps)
}

/// Liners and numbers of pumps, cheapest first.
fn pump_settings(grid: &Grid) -> Vec<(usize, usize)> {
    let mut settings: Vec<(usize, usize)> = Vec::new();
    for liner in grid.axes[LINER].nearest_first() {
        settings.extend(grid.axes[PUMPS].nearest_first().into_iter().map(|pumps| (liner, pumps)));
    }
    settings.sort_by_key(|setting| cost(grid, with_pumps(grid.here(), *setting)));
    settings
}

fn too_dear(kept: &[(Cost, Place)], keep: usize, cost: Cost) -> bool {
    kept.len() >= keep && kept.last().is_some_and(|last| cost >= last.0)
}

pub(super) fn passes(grid: &mut Grid, stage: Stage, place: Place, floors: &[f64]) -> bool {
    grid.rooms(stage, place).iter().zip(floors).all(|(room, floor)| room >= floor)
}

fn cleans_too_little(grid: &mut Grid, place: Place, floors: &[f64]) -> bool {
    let Some(cleaning) = grid.cleaning() else { return false };
    grid.rooms(Stage::Flow, place)[cleaning] < floors[cleaning]
}

/// The nozzles in the bit, or else the next larger ones with which the pressures pass.
pub(super) fn smallest_turn_of_nozzles(grid: &mut Grid, place: Place, floors: &[f64]) -> Option<Place> {
    smallest_area(grid, place, grid.axes[AREA].here, floors)
}

/// The smallest nozzles, from one set on, with which the pressures pass.
pub(super) fn smallest_area(grid: &mut Grid, place: Place, from: usize, floors: &[f64]) -> Option<Place> {
    let at = |area| set(place, AREA, area);
    if passes(grid, Stage::Pressure, at(from), floors) {
        return Some(at(from));
    }
    let (mut fails, mut holds) = (from, grid.axes[AREA].values.len().checked_sub(1)?);
    if holds <= fails || !passes(grid, Stage::Pressure, at(holds), floors) {
        return None;
    }
    while holds - fails > 1 {
        let middle = fails.midpoint(holds);
        if passes(grid, Stage::Pressure, at(middle), floors) {
            holds = middle;
        } else {
            fails = middle;
        }
    }
    Some(at(holds))
}

/// The highest of the levels that can be reached without some limits, with the setting.
fn reach(grid: &mut Grid, levels: &[f64], dropped: &[usize]) -> Option<(f64, Found)> {
    levels.iter().find_map(|level| {
        let floors = floors(grid, *level, dropped);
        Some((*level, solve(grid, &floors, 1).into_iter().next()?))
    })
}

/// The limits to let go, one after the other, until the rest can be kept: each time the one without which the others reach
/// the highest level; of equals the one that is itself short by least, counted in reserves.
fn relax(grid: &mut Grid) -> Vec<Relax> {
    let levels: Vec<f64> = LEVELS.into_iter().chain(BELOW).collect();
    let mut dropped: Vec<usize> = Vec::new();
    let mut relaxed = Vec::new();
    while relaxed.len() < MOST_RELAXED && !grid.worn_out() {
        let mut best: Option<(f64, f64, usize, Found)> = None;
        for limit in 0..grid.limits.len() {
            if dropped.contains(&limit) {
                continue;
            }
            let without: Vec<usize> = dropped.iter().copied().chain([limit]).collect();
            let Some((level, found)) = reach(grid, &levels, &without) else { continue };
            let own = found.governing[limit].room;
            if best.as_ref().is_none_or(|kept| (level, own) > (kept.0, kept.1)) {
                best = Some((level, own, limit, found));
            }
        }
        let Some((reaches, _, limit, found)) = best else { break };
        let judged = found.governing[limit].judged;
        relaxed.push(Relax {
            slug: grid.limits[limit].question.slug,
            operation: grid.limits[limit].operation,
            reaches,
            short_by: judged.map_or(0.0, |judged| judged.demand - judged.limit.capacity),
            kind: grid.limits[limit].question.kind,
        });
        dropped.push(limit);
        if reaches >= 0.0 {
            break;
        }
    }
    relaxed
}
