//! Choices of mud: what brings the mud in use to the weight of the next section, and how candidate muds compare.

use super::mud_window::mud_window;
use super::weight_up::{BARITE, annular_volume, string_volume};
use crate::{Answer, Basis, Figure, Scene, sweep};
use rigwright_physics::circulating::balances::{CostOfMass, CostOfVolume, OilShareOfLiquids};
use rigwright_physics::circulating::mixing::{
    DilutionVolume, MixedDensity, OilForRatio, WaterForRatio, WeightUpMass, WeightUpStart, WeightUpVolume,
};
use rigwright_physics::{Off, Recorder};
use rigwright_units::Kind;
use rigwright_well::{Mud, MudKind, Retort};

/// Density of the fresh water that a water-based mud is diluted with. [kg/m³]
const WATER: f64 = 998.2;
/// Density of the base oil that an oil mud is diluted with, where no retort says it. [kg/m³] (common practice)
const OIL: f64 = 820.0;
/// Mud weights closer than this are one: a tenth of what a mud balance shows. [kg/m³]
const SAME: f64 = 1.0;

fn figure(name: &'static str, value: f64, kind: Kind) -> Figure {
    Figure { name, value, kind }
}

/// What brings the mud to the weight of the next section, each way with its cost.
pub(super) fn next_mud<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let (fit, mud) = (scene.fit(), &scene.section().mud);
    let Some(next) = fit.well.sections.get(scene.situation.section + 1) else {
        return Answer::DoesNotArise("no section follows");
    };
    let Some(active) = fit.rig.pits.active else { return Answer::Missing(vec!["rig.pits.active"]) };
    let volume = annular_volume(scene, rec) + string_volume(scene, rec) + active;
    rec.heading("mud that is changed");
    rec.given("annulus, string and active pits", volume, Kind::Volume);
    rec.given("mud weight now", mud.weight, Kind::Density);
    rec.given("mud weight of the next section", next.mud.weight, Kind::Density);
    let mut figures = vec![figure("mud weight wanted", next.mud.weight, Kind::Density)];
    if mud.kind == next.mud.kind {
        if next.mud.weight > mud.weight + SAME {
            heavier(scene, volume, next.mud.weight, &mut figures, rec);
        } else if next.mud.weight < mud.weight - SAME {
            lighter(scene, volume, next.mud.weight, &mut figures, rec);
        }
        mixed(scene, volume, next.mud.weight, &mut figures, rec);
        ratio(mud, &next.mud, volume, &mut figures, rec);
    } else {
        rec.note(|| "The next section has another kind of mud: this one is displaced, not changed.".to_owned());
    }
    rec.heading("new mud of the next section's kind instead");
    figures.push(figure("new mud instead: volume", volume, Kind::Volume));
    if let Some(price_per_volume) = next.mud.price {
        figures.push(figure("new mud instead: cost", rec.take(CostOfVolume { volume, price_per_volume }), Kind::Cost));
    }
    Answer::Told(figures)
}

/// Barite makes it heavier.
fn heavier<R: Recorder>(scene: &Scene, volume: f64, wanted_density: f64, figures: &mut Vec<Figure>, rec: &mut R) {
    let (fit, density) = (scene.fit(), scene.section().mud.weight);
    let (pits, weighting_density) = (&fit.rig.pits, BARITE);
    rec.heading("weighted up, the pits taking the growth");
    let mass = rec.take(WeightUpMass { volume, density, wanted_density, weighting_density });
    let growth = rec.take(WeightUpVolume { volume, density, wanted_density, weighting_density });
    figures.push(figure("weighting up: barite", mass, Kind::Mass));
    figures.push(figure("weighting up: growth", growth, Kind::Volume));
    if let (Some(capacity), Some(active), Some(reserve)) = (pits.capacity, pits.active, pits.reserve) {
        let room = (capacity - active - reserve).max(0.0);
        rec.given("room in the pits", room, Kind::Volume);
        figures.push(figure("weighting up: growth that finds no room", (growth - room).max(0.0), Kind::Volume));
    }
    if let Some(stock) = pits.barite {
        rec.given("barite on site", stock, Kind::Mass);
        figures.push(figure("weighting up: barite to bring", (mass - stock).max(0.0), Kind::Mass));
    }
    if let Some(rate) = pits.mixing_rate.filter(|rate| *rate > 0.0) {
        rec.given("weight material that the hoppers mix in", rate, Kind::MassFlow);
        figures.push(figure("weighting up: time", mass / rate, Kind::Time));
    }
    let cost =
        |mass: f64, rec: &mut R| fit.well.prices.barite.map(|price_per_mass| rec.take(CostOfMass { mass, price_per_mass }));
    figures.extend(cost(mass, rec).map(|cost| figure("weighting up: cost", cost, Kind::Cost)));
    rec.heading("weighted up, some thrown away before so that the volume stays");
    let start = rec.take(WeightUpStart { wanted_volume: volume, density, wanted_density, weighting_density });
    let mass = rec.take(WeightUpMass { volume: start, density, wanted_density, weighting_density });
    figures.push(figure("keeping the volume: mud thrown away", volume - start, Kind::Volume));
    figures.push(figure("keeping the volume: barite", mass, Kind::Mass));
    figures.extend(cost(mass, rec).map(|cost| figure("keeping the volume: cost", cost, Kind::Cost)));
}

/// Water or base oil makes it lighter.
fn lighter<R: Recorder>(scene: &Scene, volume: f64, wanted_density: f64, figures: &mut Vec<Figure>, rec: &mut R) {
    let (mud, prices) = (&scene.section().mud, &scene.fit().well.prices);
    let oil = mud.retort.as_ref().map_or(OIL, |retort| retort.oil_density);
    let (added_density, price) = if mud.kind == MudKind::Water { (WATER, prices.water) } else { (oil, prices.base_oil) };
    rec.heading("diluted");
    rec.given("density of the water or base oil added", added_density, Kind::Density);
    if wanted_density <= added_density + SAME {
        rec.note(|| "What is added is no lighter than the mud wanted: no dilution gets there.".to_owned());
        return;
    }
    let added = rec.take(DilutionVolume { volume, density: mud.weight, wanted_density, added_density });
    figures.push(figure("diluting: to add", added, Kind::Volume));
    if let Some(price_per_volume) = price {
        figures.push(figure("diluting: cost", rec.take(CostOfVolume { volume: added, price_per_volume }), Kind::Cost));
    }
}

/// The mud in reserve is mixed in, all of it.
fn mixed<R: Recorder>(scene: &Scene, volume: f64, wanted: f64, figures: &mut Vec<Figure>, rec: &mut R) {
    let pits = &scene.fit().rig.pits;
    let (Some(reserve), Some(weight)) = (pits.reserve.filter(|reserve| *reserve > 0.0), pits.reserve_weight) else { return };
    rec.heading("mixed with all mud in reserve");
    let mix = MixedDensity { volume_1: volume, density_1: scene.section().mud.weight, volume_2: reserve, density_2: weight };
    let density = rec.take(mix);
    figures.push(figure("mixing with the reserve: mud weight", density, Kind::Density));
    figures.push(figure("mixing with the reserve: short of the weight wanted by", (wanted - density).max(0.0), Kind::Density));
}

/// The oil/water ratio of the next mud, where both retorts are known.
fn ratio<R: Recorder>(mud: &Mud, next: &Mud, volume: f64, figures: &mut Vec<Figure>, rec: &mut R) {
    let (Some(now), Some(then)) = (mud.retort, next.retort) else { return };
    if mud.kind == MudKind::Water || then.water <= 0.0 || now.water <= 0.0 || now.oil <= 0.0 || then.oil <= 0.0 {
        return;
    }
    rec.heading("oil/water ratio");
    let share =
        |retort: &Retort, rec: &mut R| rec.take(OilShareOfLiquids { oil_fraction: retort.oil, water_fraction: retort.water });
    let (before, after) = (share(&now, rec), share(&then, rec));
    figures.push(figure("share of oil in the liquids wanted", after, Kind::Fraction));
    let wanted_ratio = then.oil / then.water;
    let (oil_fraction, water_fraction) = (now.oil, now.water);
    let (name, share) = if after >= before {
        ("to raise the ratio: base oil", rec.take(OilForRatio { oil_fraction, water_fraction, wanted_ratio }))
    } else {
        ("to lower the ratio: water", rec.take(WaterForRatio { oil_fraction, water_fraction, wanted_ratio }))
    };
    rec.given("times the volume that is changed", share * volume, Kind::Volume);
    figures.push(figure(name, share * volume, Kind::Volume));
}

const COMPARED: &[(&str, Kind)] = &[
    ("mud", Kind::Count),
    ("weight", Kind::Density),
    ("lightest", Kind::Density),
    ("heaviest", Kind::Density),
    ("nearer side", Kind::Density),
    ("flow that cleans", Kind::FlowRate),
    ("standpipe", Kind::Pressure),
    ("cost", Kind::Cost),
];

/// What one mud of the comparison comes to. `NaN` is never kept: what is not known is `None`.
struct Compared {
    weight: f64,
    /// Lightest and heaviest mud of this kind that the window takes. [kg/m³]
    range: Option<(f64, f64)>,
    cleans: Option<f64>,
    standpipe: Option<f64>,
    cost: Option<f64>,
}

impl Compared {
    /// Room to the nearer side of the window, wanted margins kept; below nought when it is left. [kg/m³]
    fn room(&self) -> Option<f64> {
        self.range.map(|(lightest, heaviest)| (self.weight - lightest).min(heaviest - self.weight))
    }

    fn row(&self, number: usize) -> Vec<f64> {
        let shown = |value: Option<f64>| value.unwrap_or_default();
        let (lightest, heaviest) = self.range.unwrap_or_default();
        let (room, cleans) = (shown(self.room()), shown(self.cleans));
        vec![number as f64, self.weight, lightest, heaviest, room, cleans, shown(self.standpipe), shown(self.cost)]
    }
}

/// The mud in use and the candidates, each looked at as if it were in the hole.
pub(super) fn candidate_muds<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let section = scene.section();
    if section.candidate_muds.is_empty() {
        return Answer::DoesNotArise("no candidate muds are given");
    }
    let volume =
        scene.fit().rig.pits.active.map(|active| annular_volume(scene, &mut Off) + string_volume(scene, &mut Off) + active);
    let index = scene.situation.section;
    let mut all = vec![compared(scene.basis, index, volume)];
    rec.heading("the muds");
    rec.note(|| format!("1 is the mud in use, {}.", word(section.mud.kind)));
    for (number, candidate) in (2..).zip(&section.candidate_muds) {
        rec.note(|| {
            let said = candidate.discharge.as_deref().unwrap_or("nothing is said of its discharge");
            format!("{number} is {}, {}; {said}.", candidate.name, word(candidate.kind))
        });
        let mud = Mud {
            kind: candidate.kind,
            weight: candidate.weight,
            rheogram: candidate.rheogram.clone(),
            other_rheograms: Vec::new(),
            roughness: 0.0,
            gels: candidate.gels,
            price: candidate.price,
            retort: None,
            filtrate: Vec::new(),
            ..(*section.mud).clone()
        };
        let mut fit = scene.fit().clone();
        *fit.well.sections[index].mud = mud;
        all.push(compared(&Basis::new(&fit), index, volume));
    }
    rec.note(|| "What is said of discharge is the user's word; no law is looked at.".to_owned());
    if let Some(volume) = volume {
        rec.given("mud to fill hole, string and active pits", volume, Kind::Volume);
    }
    rec.table("each in the hole to the end of the section; nought where nothing is known", COMPARED, || {
        all.iter().enumerate().map(|(index, one)| one.row(index + 1)).collect()
    });
    let flow_rate = scene.situation.flow_rate;
    let fits = |one: &&Compared| one.room().is_some_and(|room| room >= 0.0);
    let cleans = |one: &&Compared| one.cleans.is_some_and(|wanted| wanted <= flow_rate);
    let count = |number: usize| number as f64;
    let mut figures = vec![
        figure("muds that keep the window, wanted margins included", count(all.iter().filter(fits).count()), Kind::Count),
        figure("of them clean at the flow rate", count(all.iter().filter(fits).filter(cleans).count()), Kind::Count),
        figure("muds compared", count(all.len()), Kind::Count),
    ];
    let widest = all.iter().enumerate().filter_map(|(index, one)| Some((index, one.room()?))).max_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((index, room)) = widest {
        figures.push(figure("most room in the window: mud", count(index + 1), Kind::Count));
        figures.push(figure("most room in the window", room, Kind::Density));
    }
    let serves = all.iter().enumerate().filter(|(_, one)| fits(one) && cleans(one));
    let cheapest = serves.filter_map(|(index, one)| Some((index, one.cost?))).min_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((index, cost)) = cheapest {
        figures.push(figure("cheapest that keeps the window and cleans: mud", count(index + 1), Kind::Count));
        figures.push(figure("cheapest that keeps the window and cleans: cost", cost, Kind::Cost));
    }
    Answer::Told(figures)
}

const fn word(kind: MudKind) -> &'static str {
    match kind {
        MudKind::Water => "water-based",
        MudKind::Oil => "oil-based",
        MudKind::Synthetic => "synthetic-based",
    }
}

/// Looks at the end of a section of a fit, with the mud that it has there.
fn compared(basis: &Basis, section: usize, volume: Option<f64>) -> Compared {
    let scene = Scene::new(basis, sweep::section_end(basis.fit, section));
    let mud = &scene.section().mud;
    let range = match mud_window(&scene, &mut Off) {
        Answer::Told(figures) => {
            let mut weights = figures.iter().filter(|figure| figure.kind == Kind::Density).map(|figure| figure.value);
            weights.next().zip(weights.next())
        }
        _ => None,
    };
    let flow = scene.flow(&mut Off);
    Compared {
        weight: mud.weight,
        range,
        cleans: scene.cleaning().map(|wanted| wanted.flow_rate),
        standpipe: flow.missing.is_none().then_some(flow.standpipe),
        cost: volume.zip(mud.price).map(|(volume, price_per_volume)| Off.take(CostOfVolume { volume, price_per_volume })),
    }
}
