//! The annuli behind the casing: how much pressure may stand on top of each.

use super::ratings::{BACKUP_WEIGHT, WALL_SHARE, rated};
use crate::question::{Question, Scope};
use crate::{Answer, Figure, Scene};
use rigwright_physics::circulating::column::EquivalentMudWeight;
use rigwright_physics::control::limits::{BurstSurfacePressure, CollapseSurfacePressure, Maasp};
use rigwright_physics::tubular::{AllowedCollapse, BurstStrength, PipeBody, WallThickness};
use rigwright_physics::{Formula, Kind, Off, Recorder, Working};
use rigwright_well::Casing;

/// From the innermost annulus out.
const NAMES: &[&str] = &[
    "most pressure behind the last string",
    "most pressure behind the string before it",
    "most pressure behind the third string from inside",
    "most pressure behind the fourth string from inside",
];

pub(super) const QUESTIONS: &[Question] = &[Question {
    slug: "control/annuli",
    asks: "How much pressure may stand on each annulus behind the casing?",
    title: "annuli behind casing",
    kind: Kind::Pressure,
    scope: Scope::Section,
    knobs: &[],
    assumes: &[
        "the annulus holds the mud in which its inner string was run, down to the top of cement; mud that has settled weighs less and loads the outer string less, the inner one as well",
        "fresh water behind the outer string, the mud of this section inside the inner one, up to surface",
        "body of the pipe without wear, collapse without tension; heat that swells a closed annulus is not looked at",
    ],
    ask: annuli::<Off>,
    show: annuli::<Working>,
}];

/// An annulus behind casing.
struct Behind<'a> {
    inner: &'a Casing,
    outer: &'a Casing,
    /// Weight of the mud in it. [kg/m³]
    mud_weight: f64,
    /// Measured depth of the top of cement. [m]
    cement_top: f64,
}

fn annuli<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if fit.well.sea_bed().is_some() {
        return Answer::DoesNotArise(
            "heads on the sea bed: what stands behind the casing is neither read nor bled while drilling",
        );
    }
    let mut missing = Vec::new();
    let mut figures = Vec::new();
    let in_hole = fit.well.sections[..scene.situation.section].iter().rev();
    let to_surface: Vec<_> = in_hole
        .filter_map(|section| Some((section.casing.as_ref()?, section.mud.weight)))
        .filter(|(casing, _)| casing.top <= 0.0)
        .collect();
    for (pair, name) in to_surface.windows(2).zip(NAMES) {
        let [(inner, mud_weight), (outer, _)] = *pair else { continue };
        rec.stretch(|| format!("between {} and {}", inner.name, outer.name), 0.0, inner.cement_top.unwrap_or(inner.shoe));
        let Some(cement_top) = inner.cement_top else {
            missing.push("section[].casing.cement_top");
            continue;
        };
        if cement_top <= 0.0 {
            rec.note(|| "Cemented up to surface: no mud in it.".to_owned());
            continue;
        }
        match least(scene, &Behind { inner, outer, mud_weight, cement_top }, rec) {
            Ok(value) => figures.push(Figure { name, value, kind: Kind::Pressure }),
            Err(entry) => missing.push(entry),
        }
    }
    missing.dedup();
    match (missing.is_empty(), figures.is_empty()) {
        (false, _) => Answer::Missing(missing),
        (true, true) => Answer::DoesNotArise("no mud behind casing that reaches the surface"),
        (true, false) => Answer::Told(figures),
    }
}

/// The least of what outer string, inner string, rock and wellhead bear, or the entry that is missing. [Pa]
fn least<R: Recorder>(scene: &Scene, behind: &Behind, rec: &mut R) -> Result<f64, &'static str> {
    let Behind { inner, outer, mud_weight, cement_top } = *behind;
    let (fit, gravity) = (scene.fit(), scene.gravity());
    let Some(burst_fraction) = outer.burst_fraction else { return Err("section[].casing.burst_fraction") };
    let Some(wellhead) = fit.rig.wellhead_rating else { return Err("rig.wellhead.rating") };
    let wellhead = rated(fit, wellhead, "rating of the wellhead");
    let mut all = vec![wellhead.capacity];

    rec.heading("burst of the outer string, at both ends of the mud");
    let wall = rec.take(WallThickness { outer_diameter: outer.outer_diameter, inner_diameter: outer.inner_diameter });
    let (outer_diameter, yield_strength) = (outer.outer_diameter, outer.yield_strength);
    let burst = rec.take(BurstStrength { yield_strength, wall, outer_diameter, wall_share: WALL_SHARE });
    for depth in [0.0, cement_top.min(outer.shoe)] {
        let vertical_depth = scene.vertical_depth(depth);
        let outside_weight = BACKUP_WEIGHT;
        let one = BurstSurfacePressure { burst, burst_fraction, mud_weight, outside_weight, vertical_depth, gravity };
        all.push(rec.take(one));
    }

    rec.heading("collapse of the inner string, at both ends of the mud");
    let wall = rec.take(WallThickness { outer_diameter: inner.outer_diameter, inner_diameter: inner.inner_diameter });
    let body = PipeBody { yield_strength: inner.yield_strength, outer_diameter: inner.outer_diameter, wall };
    let collapse_strength = body.collapse_strength(rec);
    let collapse = rec.take(AllowedCollapse { collapse_strength, design_factor: fit.well.casing_factors.collapse });
    let inside = scene.section().mud.weight;
    for depth in [0.0, cement_top] {
        let vertical_depth = scene.vertical_depth(depth);
        let (outside_weight, mud_weight) = (mud_weight, inside);
        all.push(rec.take(CollapseSurfacePressure { collapse, outside_weight, mud_weight, vertical_depth, gravity }));
    }

    if cement_top > outer.shoe {
        rec.heading("the rock at the shoe of the outer string: the cement stops below it");
        let shoe_depth = scene.vertical_depth(outer.shoe);
        let rock = || {
            let pressure = fit.well.formation_at(shoe_depth).fracture_at(shoe_depth)?;
            Some(EquivalentMudWeight { pressure, vertical_depth: shoe_depth, gravity }.value())
        };
        let Some(shoe_weight) = outer.leak_off.map(|test| test.weight).or_else(rock) else {
            return Err("section[].casing.leak_off");
        };
        all.push(rec.take(Maasp { shoe_weight, mud_weight, shoe_depth, gravity }));
    } else {
        rec.note(|| "Cemented into the outer string: no rock stands against it.".to_owned());
    }
    rec.given("rating of the wellhead", wellhead.capacity, Kind::Pressure);
    let least = all.into_iter().fold(f64::INFINITY, f64::min);
    rec.given("the least of them", least, Kind::Pressure);
    Ok(least)
}
