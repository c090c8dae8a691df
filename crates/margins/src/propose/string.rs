//! Stronger drill pipe by grade and class, and longer collars, where those of the section are short or thin.

use super::ground::{Ground, as_it_is, asking, look, look_at_end};
use super::{COLLARS, Job, LEVELS, Outcome, PIPE, Setting, Step, Turn};
use rigwright_physics::tubular::{CLASS_2_WALL, PREMIUM_WALL, yield_strength};
use rigwright_units::Kind;
use rigwright_well::{Fit, Operation, PartKind, WearClass};
use rigwright_wellfile::Ease;

/// Grades of drill pipe (API Spec 5DP), weakest first.
const GRADES: [&str; 4] = ["E-75", "X-95", "G-105", "S-135"];
/// What the pipe has to bear.
const BORNE: &[&str] = &["rotating/pipe-strength", "rotating/triaxial", "rotating/pipe-overpull"];
const PULLED: &[Operation] =
    &[Operation::Drilling, Operation::Connection, Operation::Circulating, Operation::PullingOut, Operation::RunningIn];
/// Joints by which collars are made longer at most.
const MOST_JOINTS: u32 = 40;

/// Wall that a class leaves.
fn wall(class: WearClass) -> f64 {
    match class {
        WearClass::New => 1.0,
        WearClass::Premium => PREMIUM_WALL,
        WearClass::Class2 => CLASS_2_WALL,
    }
}

/// Grades and classes with their share of strength, weakest first; of equals the more worn one, which costs less. [Pa]
fn choices() -> Vec<(f64, &'static str, WearClass, f64)> {
    let mut all = Vec::new();
    for grade in GRADES {
        for class in [WearClass::Premium, WearClass::New] {
            all.extend(yield_strength(grade).map(|strength| (strength * wall(class), grade, class, strength)));
        }
    }
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    all
}

/// The grade of a yield strength.
fn grade(strength: f64) -> Option<&'static str> {
    GRADES.into_iter().find(|name| yield_strength(name).is_some_and(|one| (one / strength - 1.0).abs() < 1e-6))
}

/// The weakest drill pipe that holds, where that of the section does not.
pub(super) fn pipe(ground: &Ground, section: usize) -> (Step, Option<Fit>) {
    let questions = asking(BORNE);
    let borne = |fit: &Fit| look(fit, section, &questions, PULLED);
    let now = borne(&ground.fit);
    let as_is = |outcome| (Step::new(Job::Pipe, Some(section), outcome), None);
    let parts = &ground.fit.well.sections[section].string;
    let Some(pipe) = parts.iter().find(|part| part.kind == PartKind::DrillPipe) else { return as_is(as_it_is(&now)) };
    let (Some(room), Some(strength)) = (now.room.filter(|_| !now.unknown()), pipe.yield_strength) else {
        return as_is(as_it_is(&now));
    };
    let from = Setting::Pipe { grade: grade(strength), yield_strength: strength, class: pipe.class };
    let stronger: Vec<_> = choices().into_iter().filter(|choice| choice.0 > strength * wall(pipe.class) * 1.0001).collect();
    for level in LEVELS.into_iter().filter(|level| *level > room && (*level >= 1.0 || room < 0.0)) {
        for (_, grade, class, yield_strength) in &stronger {
            let to = Setting::Pipe { grade: Some(grade), yield_strength: *yield_strength, class: *class };
            let ease = Ease::NeedsBuying;
            let turn = Turn { knob: PIPE, kind: Kind::Stress, section: Some(section), from: from.clone(), to, ease };
            let mut fit = ground.fit.clone();
            turn.apply(&mut fit);
            let look = borne(&fit);
            if look.reached() >= level {
                let outcome = Outcome::Turns(look.word());
                return (Step { turns: vec![turn], ..Step::new(Job::Pipe, Some(section), outcome) }, Some(fit));
            }
        }
    }
    as_is(if room < 0.0 { Outcome::Nothing } else { as_it_is(&now) })
}

/// The fewest joints of collar more with which the weight on bit is carried, where it is not.
pub(super) fn collars(ground: &Ground, section: usize) -> (Step, Option<Fit>) {
    let questions = asking(&["rotating/weight-on-bit"]);
    let asked = |fit: &Fit| look_at_end(fit, section, &questions);
    let now = asked(&ground.fit);
    let as_is = |outcome| (Step::new(Job::Collars, Some(section), outcome), None);
    let parts = &ground.fit.well.sections[section].string;
    let Some(index) = parts.iter().position(|part| part.kind == PartKind::Collar) else { return as_is(as_it_is(&now)) };
    let (Some(room), from, joint) = (now.room, parts[index].length, parts[index].joint_length) else {
        return as_is(as_it_is(&now));
    };
    for level in LEVELS.into_iter().filter(|level| *level > room && (*level >= 1.0 || room < 0.0)) {
        for count in 1..=MOST_JOINTS {
            let length = from + joint * f64::from(count);
            let (from, to) = (Setting::Value(from), Setting::Value(length));
            let turn = Turn { knob: COLLARS, kind: Kind::Depth, section: Some(section), from, to, ease: Ease::NextTrip };
            let mut fit = ground.fit.clone();
            turn.apply(&mut fit);
            let look = asked(&fit);
            if look.reached() >= level {
                let outcome = Outcome::Turns(look.word());
                return (Step { turns: vec![turn], ..Step::new(Job::Collars, Some(section), outcome) }, Some(fit));
            }
        }
    }
    as_is(if room < 0.0 { Outcome::Nothing } else { as_it_is(&now) })
}
