//! Riser and stack on the hook of a floating rig, the stack just above the wellhead.

use super::line::{Heaviest, judge_lines};
use super::load::{mast_at, rated};
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::hoisting::{BlockMotion, HookLoad, RiserWeight, Tackle, TravellingWeight};
use rigwright_physics::{Kind, Recorder};

pub(super) fn riser_and_stack<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let (rig, share) = (&fit.rig, fit.well.reserves.load);
    let (Some(length), Some(riser)) = (fit.well.sea_bed(), rig.riser) else {
        return Answer::DoesNotArise("no riser is run: the preventers stand at surface");
    };
    let lines = rig.line.strung;
    let rating = rig.mast.rating(lines);
    let (Some(linear_mass), Some(stack_weight), Some(rating)) = (riser.linear_mass, riser.stack_weight, rating) else {
        let given = [
            ("rig.riser.weight", riser.linear_mass.is_some()),
            ("rig.riser.stack_weight", riser.stack_weight.is_some()),
            ("rig.mast.hook_load", rating.is_some()),
        ];
        return Answer::Missing(given.into_iter().filter(|(_, given)| !given).map(|(entry, _)| entry).collect());
    };
    rec.heading("hook load with the stack above the wellhead");
    let string_load = rec.take(RiserWeight { linear_mass, length, gravity: scene.gravity(), stack_weight });
    let travelling_weight = rec.take(TravellingWeight { block_weight: rig.block.weight, drive_weight: rig.drive.weight });
    let hook = rec.take(HookLoad { string_load, travelling_weight });
    rec.heading(mast_at(lines));
    let hung = Heaviest { string: Some(hook), casing: None };
    let mut judgements = judge_lines(fit, &hung, (lines, rating), rec);
    rec.heading("blocks");
    let tackle = Tackle { lines: f64::from(lines), sheave_factor: rig.line.sheave_factor };
    let crown = tackle.derrick_load(hook, BlockMotion::Hoisting, rec);
    let parts = [
        ("crown block", crown, rig.crown.rating, "rig.crown.rating"),
        ("travelling block", hook, rig.block.rating, "rig.block.rating"),
        ("hook", hook - rig.block.weight, rig.block.hook_rating, "rig.block.hook_rating"),
    ];
    let mut missing = Vec::new();
    for (name, demand, capacity, entry) in parts {
        let Some(capacity) = capacity else {
            missing.push(entry);
            continue;
        };
        rec.given(name, capacity, Kind::Force);
        let limit: Limit = rated(capacity, share, name, "nameplate of the part");
        judgements.push(Judged { demand, limit, place: Place::Surface, zero: 0.0 });
    }
    match worst(judgements) {
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

    fn ask(fit: &Fit) -> Answer {
        let basis = Basis::new(fit);
        riser_and_stack(&Scene::new(&basis, sweep::section_end(fit, 0)), &mut Off)
    }

    /// The load by hand, and the verdict that flips where it meets the mast.
    #[test]
    fn law_riser_and_stack_by_hand() {
        let mut fit = crate::example("quellmere");
        let riser = fit.rig.riser.unwrap();
        let hung = riser.linear_mass.unwrap() * STANDARD_GRAVITY * fit.well.sea_bed().unwrap() + riser.stack_weight.unwrap();
        let hook = hung + fit.rig.block.weight + fit.rig.drive.weight;
        (fit.rig.crown.rating, fit.rig.block.rating, fit.rig.block.hook_rating) = (Some(1e12), Some(1e12), Some(1e12));
        (fit.rig.line.strength, *fit.rig.drawworks.line_pull) = (1e12, 1e12);
        fit.rig.mast.hook_load = vec![(fit.rig.line.strung, hook * (1.0 + 1e-12))];
        assert_eq!(ask(&fit).verdict(), Verdict::Thin);
        assert!((ask(&fit).judged().unwrap().demand / hook - 1.0).abs() < 1e-12);
        fit.rig.mast.hook_load = vec![(fit.rig.line.strung, hook * (1.0 - 1e-12))];
        assert_eq!(ask(&fit).verdict(), Verdict::Short);
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::section_end(&fit, 0));
        assert_eq!(riser_and_stack(&scene, &mut Working::default()), ask(&fit));
    }

    #[test]
    fn law_weights_that_nobody_gave_are_unknown() {
        let mut fit = crate::example("quellmere");
        let riser = fit.rig.riser.as_mut().unwrap();
        (riser.linear_mass, riser.stack_weight) = (None, None);
        assert_eq!(ask(&fit), Answer::Missing(vec!["rig.riser.weight", "rig.riser.stack_weight"]));
        assert_eq!(ask(&crate::example("ostrick")).verdict(), Verdict::DoesNotArise);
    }
}
