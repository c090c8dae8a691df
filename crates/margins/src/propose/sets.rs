//! The fewest generator sets on line that carry every operation, its peaks, the loss of one or of a
//! bus section, and the start of the largest motor.

use super::ground::{Ground, Look, as_it_is, asking, look, look_at_end, the, verdict};
use super::{Job, LEVELS, Outcome, Step};
use crate::{Answer, Basis, Figure, Question, Scene, question, sweep};
use rigwright_physics::Off;
use rigwright_well::{Fit, Operation};

const CARRIED: &[&str] = &["power/sets-on-line", "power/one-set-lost", "power/peak", "power/peak-one-set-lost"];

/// More sets, where those on line do not carry everything and more carry more of it.
pub(super) fn more(ground: &Ground) -> Option<(Step, Option<Fit>)> {
    let today = ground.fit.rig.sets.on_line;
    fewest_of(ground, |sets, room, now| sets > today && now < 1.0 && room > now)
}

/// The fewest sets that carry everything as well as any number does.
pub(super) fn fewest(ground: &Ground) -> (Step, Option<Fit>) {
    let today = ground.fit.rig.sets.on_line;
    fewest_of(ground, |sets, room, now| (sets < today && room.min(1.0) >= now.min(1.0)) || verdict(room) > verdict(now))
        .unwrap_or_else(|| {
            let now = carried(&ground.fit);
            let outcome = if now.room.is_some_and(|room| room < 0.0) { Outcome::Nothing } else { as_it_is(&now) };
            (Step::new(Job::Sets, None, outcome), None)
        })
}

/// The fewest sets of those at the highest level that any number reaches, or the number with most room where none holds; if
/// they are wanted: their number, the room with them, the room today.
fn fewest_of(ground: &Ground, wanted: impl Fn(u32, f64, f64) -> bool) -> Option<(Step, Option<Fit>)> {
    let knob = the("generator sets on line")?;
    let with = |sets: u32| {
        let mut fit = ground.fit.clone();
        fit.rig.sets.on_line = sets;
        carried(&fit)
    };
    let looks: Vec<(u32, Look)> = (1..=ground.fit.rig.sets.number).map(|sets| (sets, with(sets))).collect();
    let now = carried(&ground.fit);
    let now = now.room.filter(|_| !now.unknown())?;
    let level = LEVELS.iter().find_map(|level| looks.iter().find(|(_, look)| look.reached() >= *level));
    let most = || looks.iter().reduce(|best, next| if next.1.reached() > best.1.reached() { next } else { best });
    let (sets, look) = level.or_else(most)?;
    if !wanted(*sets, look.reached(), now) {
        return None;
    }
    let word = look.word();
    let (fit, turns) = ground.turned(&[(knob, f64::from(*sets))], 0);
    let fuels = [("fuel of the programme with the sets of today", &ground.fit), ("fuel of the programme with these sets", &fit)];
    let figures: Vec<Figure> =
        fuels.into_iter().filter_map(|(name, fit)| Some(Figure { name, ..fuel_of_programme(fit)? })).collect();
    Some((Step { turns, figures, ..Step::new(Job::Sets, None, Outcome::Turns(word)) }, Some(fit)))
}

/// The worst of the power questions over the whole well.
fn carried(fit: &Fit) -> Look {
    let questions = asking(CARRIED);
    let sections = 0..fit.well.sections.len();
    let last = sections.end.saturating_sub(1);
    let over = |questions: &[&'static Question]| {
        let looks = sections.clone().map(|section| look(fit, section, questions, &Operation::ALL));
        looks.fold(Look::default(), Look::and)
    };
    // What nobody described does not keep the rest from being judged: the start of a motor, how the bus is split.
    let lost = over(&asking(&["power/bus-lost"]));
    let once = look_at_end(fit, last, &asking(&["power/starting", "power/station-keeping"]));
    let judged = Look { missing: Vec::new(), ..lost.and(once) };
    over(&questions).and(judged)
}

/// Fuel of the whole programme with the sets on line.
fn fuel_of_programme(fit: &Fit) -> Option<Figure> {
    let question = question("power/programme")?;
    let last = fit.well.sections.len().checked_sub(1)?;
    let basis = Basis::new(fit);
    match (question.ask)(&Scene::new(&basis, sweep::section_end(fit, last)), &mut Off) {
        Answer::Told(figures) => figures.into_iter().find(|figure| figure.name == crate::power::FUEL_TODAY),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Sets that a lost bus section would leave too few of are not enough; a bus that nobody described is left out.
    #[test]
    fn law_sets_also_carry_the_loss_of_a_bus_section() {
        let mut fit = crate::example("quellmere");
        fit.rig.sets.on_line = 3;
        assert!(carried(&fit).room.is_some_and(|room| room < 0.0));
        fit.rig.sets.buses = None;
        let look = carried(&fit);
        assert!(look.room.is_some_and(|room| room >= 0.0) && look.missing.is_empty());
    }
}
