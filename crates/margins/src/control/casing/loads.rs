//! What stands inside and outside a string of casing, and how hard it is pulled, in each load case.
//!
//! A string hangs freely until its cement sets; from then on it is held at the hanger and along its cement, and a change
//! of pressure pulls or pushes it. Pressures are gauge, tension is positive.

use crate::control::ratings::{BACKUP_WEIGHT, exposed};
use crate::fields::drag::Drag;
use crate::fields::influx::{gas_density_below, surface_pressure};
use crate::{Scene, sweep};
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_physics::hoisting::TrueTension;
use rigwright_physics::tubular::{FixedPipeForce, HotYieldStrength, SteelArea, WallThickness};
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::{Casing, Operation};
use std::f64::consts::FRAC_PI_4;

/// Poisson's ratio of steel. [-]
const POISSON: f64 = 0.3;
/// Steps over a string, besides the depths where something changes.
const STEPS: usize = 12;
/// Depths closer than this are one. [m]
const SAME: f64 = 1e-3;

/// A load case.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Case {
    /// At the shoe, picked up with the wanted overpull on top.
    Running,
    /// Cement in place, pressure bled off: floats hold it.
    Cementing,
    /// The plug lands while the cement is liquid.
    Bump,
    /// Tested with the cement set.
    Test,
    /// Shut in on gas while a section below is drilled.
    Gas,
    /// Mud lost to the rock below, or the string emptied on purpose.
    Losses,
}

impl Case {
    /// Heading of its part of the working.
    pub(super) const fn heading(self) -> &'static str {
        match self {
            Case::Running => "running: at the shoe, picked up with the wanted overpull",
            Case::Cementing => "cementing: slurry outside, mud inside, pressure bled off",
            Case::Bump => "plug bump: pressure on mud inside, liquid cement outside",
            Case::Test => "pressure test: pressure on mud inside, water behind, cement set",
            Case::Gas => "gas to surface: what may come to surface on gas inside, water behind",
            Case::Losses => "lost returns: empty down to the level, mud outside as when it was run",
        }
    }
}

/// Two fluids, one on the other, with pressure on top. [Pa, kg/m³, m]
#[derive(Clone, Copy, Debug)]
struct Column {
    pressure: f64,
    upper: f64,
    change: f64,
    lower: f64,
    /// Below this vertical depth there is nothing: pipe on its floats.
    empty_below: f64,
    gravity: f64,
}

impl Column {
    fn one(pressure: f64, density: f64, gravity: f64) -> Column {
        let (change, empty_below) = (f64::INFINITY, f64::INFINITY);
        Column { pressure, upper: density, change, lower: density, empty_below, gravity }
    }

    /// Pressure at a vertical depth. [Pa]
    fn at<R: Recorder>(&self, vertical_depth: f64, rec: &mut R) -> f64 {
        if vertical_depth > self.empty_below {
            rec.note(|| "Nothing inside: it is run empty here, on its floats.".into());
            return 0.0;
        }
        let mut sum = self.pressure;
        if R::ON && self.pressure > 0.0 {
            rec.given("pressure on top of it", self.pressure, Kind::Pressure);
        }
        let above = vertical_depth.min(self.change);
        for (density, height) in [(self.upper, above), (self.lower, vertical_depth - above)] {
            if density > 0.0 && height > 0.0 {
                sum += rec.take(Hydrostatic { density, vertical_depth: height, gravity: self.gravity });
            }
        }
        sum
    }
}

/// What stands on both sides of the wall.
#[derive(Clone, Copy)]
struct Sides {
    inside: Column,
    outside: Column,
}

impl Sides {
    /// How much more they press at a vertical depth than others did. [Pa]
    fn since(&self, was: &Sides, vertical_depth: f64) -> (f64, f64) {
        let more = |now: &Column, then: &Column| now.at(vertical_depth, &mut Off) - then.at(vertical_depth, &mut Off);
        (more(&self.inside, &was.inside), more(&self.outside, &was.outside))
    }
}

/// What pulls on the string.
enum Pull {
    /// It hangs in its slips and is picked up. Effective tension along it, and the overpull on top.
    Picked { drag: Drag, overpull: f64 },
    /// It hangs freely, closed at its shoe.
    Hanging,
    /// It is held at the hanger and along its cement: changes since the cement set, with their means over the free length.
    Held { was: Sides, means: (f64, f64) },
}

/// A load case of a string.
pub(super) struct Load {
    pub(super) case: Case,
    sides: Sides,
    pull: Pull,
    /// From the top down.
    pub(super) nodes: Vec<Node>,
}

/// One depth of a load case.
#[derive(Clone, Copy, Debug)]
pub(super) struct Node {
    pub(super) depth: f64,
    pub(super) inside: f64,
    pub(super) outside: f64,
    pub(super) true_tension: f64,
    /// Curvature of the hole: the sharper side. [rad/m]
    pub(super) curvature: f64,
    /// Yield strength in the heat there. [Pa]
    pub(super) yield_strength: f64,
}

/// The string that is looked at.
pub(super) struct Design<'s, 'f> {
    pub(super) scene: &'s Scene<'f>,
    pub(super) casing: &'f Casing,
    pub(super) wall: f64,
    pub(super) steel_area: f64,
    inner_area: f64,
    outer_area: f64,
    depths: Vec<f64>,
}

impl<'s, 'f> Design<'s, 'f> {
    pub(super) fn new<R: Recorder>(scene: &'s Scene<'f>, casing: &'f Casing, rec: &mut R) -> Design<'s, 'f> {
        let (outer_diameter, inner_diameter) = (casing.outer_diameter, casing.inner_diameter);
        let mut depths: Vec<f64> =
            (0..=STEPS).map(|step| casing.top + (casing.shoe - casing.top) * step as f64 / STEPS as f64).collect();
        depths.extend(casing.cement_top);
        // Both sides of where it is empty.
        let filled_to = casing.shoe - casing.floated;
        depths.extend([filled_to, filled_to + 2.0 * SAME]);
        depths.extend(scene.fit().well.path.stations().iter().map(|station| station.depth));
        Design {
            scene,
            casing,
            wall: rec.take(WallThickness { outer_diameter, inner_diameter }),
            steel_area: rec.take(SteelArea { outer_diameter, inner_diameter }),
            inner_area: FRAC_PI_4 * inner_diameter * inner_diameter,
            outer_area: FRAC_PI_4 * outer_diameter * outer_diameter,
            depths,
        }
    }

    fn gravity(&self) -> f64 {
        self.scene.gravity()
    }

    /// Mud of the string's own section from surface. [Pa]
    fn mud(&self, pressure: f64) -> Column {
        Column::one(pressure, self.scene.section().mud.weight, self.gravity())
    }

    /// Mud and slurry outside while the cement is liquid, or the entries that say so.
    fn slurry(&self) -> Result<Column, Vec<&'static str>> {
        let entries = [("cement_top", self.casing.cement_top), ("cement_weight", self.casing.cement_weight)];
        let [(_, Some(top)), (_, Some(lower))] = entries else {
            let path = |name| match name {
                "cement_top" => "section[].casing.cement_top",
                _ => "section[].casing.cement_weight",
            };
            return Err(entries.iter().filter(|(_, value)| value.is_none()).map(|(name, _)| path(*name)).collect());
        };
        Ok(Column { change: self.scene.vertical_depth(top), lower, ..self.mud(0.0) })
    }

    /// The load of one case in every section below that raises it, or the entries that are missing for it.
    pub(super) fn loads(&self, case: Case) -> Result<Vec<Load>, Vec<&'static str>> {
        let casing = self.casing;
        match case {
            Case::Running => Ok(vec![self.running()]),
            Case::Cementing => {
                let outside = self.slurry()?;
                Ok(vec![self.load(case, Sides { inside: self.mud(0.0), outside }, Pull::Hanging, casing.shoe)])
            }
            Case::Bump => {
                let (outside, pressure) = with(self.slurry(), casing.bump_pressure, "section[].casing.bump_pressure")?;
                Ok(vec![self.load(case, Sides { inside: self.mud(pressure), outside }, Pull::Hanging, casing.shoe)])
            }
            Case::Test => {
                let (slurry, pressure) = with(self.slurry(), casing.test_pressure, "section[].casing.test_pressure")?;
                let sides = Sides { inside: self.mud(pressure), outside: self.water() };
                Ok(vec![self.held(case, sides, slurry, casing.shoe)])
            }
            Case::Gas => self.gas(),
            Case::Losses => self.losses(),
        }
    }

    fn water(&self) -> Column {
        Column::one(0.0, BACKUP_WEIGHT, self.gravity())
    }

    fn running(&self) -> Load {
        let (scene, casing) = (self.scene, self.casing);
        let (section, bottom) = (scene.situation.section, scene.section().bottom);
        let situation = sweep::situation(scene.fit(), section, Operation::RunningCasing, bottom, casing.shoe);
        let drag = Drag::solve(&Scene::new(scene.basis, situation), &mut Off);
        let pull = Pull::Picked { drag, overpull: scene.fit().well.margins.overpull };
        let empty_below = match casing.floated > 0.0 {
            true => scene.vertical_depth(casing.shoe - casing.floated) + SAME,
            false => f64::INFINITY,
        };
        let sides = Sides { inside: Column { empty_below, ..self.mud(0.0) }, outside: self.mud(0.0) };
        self.load(Case::Running, sides, pull, casing.shoe)
    }

    /// The sections below that see this string, each with the depth down to which they do. [m]
    fn below(&self) -> impl Iterator<Item = (usize, f64)> {
        let fit = self.scene.fit();
        (self.scene.situation.section + 1..fit.well.sections.len()).filter_map(move |section| {
            let seen = exposed(fit, section).into_iter().find(|length| std::ptr::eq(length.casing, self.casing));
            seen.map(|length| (section, length.bottom))
        })
    }

    fn gas(&self) -> Result<Vec<Load>, Vec<&'static str>> {
        let (fit, mut loads) = (self.scene.fit(), Vec::new());
        for (section, bottom) in self.below() {
            let slurry = self.slurry()?;
            let scene = Scene::new(self.scene.basis, sweep::section_end(fit, section));
            let column = surface_pressure(&scene, &mut Off).and_then(|surface| {
                let density = gas_density_below(&scene, surface.pressure, scene.vertical_depth(bottom), &mut Off)?;
                Some(Column::one(surface.pressure, density, self.gravity()))
            });
            // Outside the range of the gas correlation nothing is known: it is too cold there.
            let Some(inside) = column else { return Err(vec!["temperature.surface"]) };
            loads.push(self.held(Case::Gas, Sides { inside, outside: self.water() }, slurry, bottom));
        }
        Ok(loads)
    }

    fn losses(&self) -> Result<Vec<Load>, Vec<&'static str>> {
        let (fit, gravity, mut loads) = (self.scene.fit(), self.gravity(), Vec::new());
        let mut push = |density: f64, level: f64, bottom: f64| -> Result<(), Vec<&'static str>> {
            let inside = Column { upper: 0.0, change: level, ..Column::one(0.0, density, gravity) };
            loads.push(self.held(Case::Losses, Sides { inside, outside: self.mud(0.0) }, self.slurry()?, bottom));
            Ok(())
        };
        if let Some(level) = self.casing.empty_to {
            let next = self.below().next().map_or(self.scene.situation.section, |(section, _)| section);
            push(fit.well.sections[next].mud.weight, self.scene.vertical_depth(level), self.casing.shoe)?;
            return Ok(loads);
        }
        for (section, bottom) in self.below() {
            let density = fit.well.sections[section].mud.weight;
            let points = self.scene.basis.flow.section(fit, section).open_hole.points();
            // The rock takes mud until the column left weighs as much as its pore pressure.
            let level = points.iter().map(|point| point.vertical_depth - point.pore / (density * gravity)).fold(0.0, f64::max);
            if level > 0.0 {
                push(density, level, bottom)?;
            }
        }
        Ok(loads)
    }

    /// A load after the cement has set.
    fn held(&self, case: Case, sides: Sides, slurry: Column, bottom: f64) -> Load {
        let was = Sides { inside: self.mud(0.0), outside: slurry };
        let free_to = self.casing.cement_top.unwrap_or(self.casing.shoe).min(self.casing.shoe);
        let change = |depth: f64| {
            let vertical_depth = self.scene.vertical_depth(depth);
            sides.since(&was, vertical_depth)
        };
        let mut means = (0.0, 0.0);
        if free_to > self.casing.top + SAME {
            let depths = self.between(self.casing.top, free_to, &sides.inside);
            for pair in depths.windows(2) {
                let (above, below, length) = (change(pair[0]), change(pair[1]), pair[1] - pair[0]);
                means.0 += 0.5 * (above.0 + below.0) * length;
                means.1 += 0.5 * (above.1 + below.1) * length;
            }
            means = (means.0 / (free_to - self.casing.top), means.1 / (free_to - self.casing.top));
        }
        self.load(case, sides, Pull::Held { was, means }, bottom)
    }

    /// Depths between two ends where something changes, both ends included. [m]
    fn between(&self, top: f64, bottom: f64, inside: &Column) -> Vec<f64> {
        let mut depths = self.depths.clone();
        depths.extend(self.scene.fit().well.path.measured_depth_at(inside.change).filter(|_| inside.change.is_finite()));
        depths.retain(|depth| (top + SAME..bottom - SAME).contains(depth));
        depths.extend([top, bottom]);
        depths.sort_by(f64::total_cmp);
        depths.dedup_by(|next, kept| *next - *kept < SAME);
        depths
    }

    fn load(&self, case: Case, sides: Sides, pull: Pull, bottom: f64) -> Load {
        let mut load = Load { case, sides, pull, nodes: Vec::new() };
        let depths = match self.scene.at {
            None => self.between(self.casing.top, bottom, &sides.inside),
            Some(at) => Some(at).filter(|at| (self.casing.top..=bottom).contains(at)).into_iter().collect(),
        };
        load.nodes = depths.into_iter().map(|depth| self.node(&load, depth, &mut Off)).collect();
        load
    }

    /// One depth of a load, with its working.
    pub(super) fn node<R: Recorder>(&self, load: &Load, depth: f64, rec: &mut R) -> Node {
        let (well, vertical_depth) = (&self.scene.fit().well, self.scene.vertical_depth(depth));
        rec.given("measured depth", depth, Kind::Depth);
        rec.given("vertical depth", vertical_depth, Kind::Depth);
        rec.heading("pressure inside there");
        if load.case == Case::Gas {
            rec.note(|| {
                "What may come to surface is worked out in control/casing-burst of the section below; the gas has its mean weight."
                    .into()
            });
        }
        let inside = load.sides.inside.at(vertical_depth, rec);
        rec.given("inside, added up", inside, Kind::Pressure);
        rec.heading("pressure outside there");
        let outside = load.sides.outside.at(vertical_depth, rec);
        rec.given("outside, added up", outside, Kind::Pressure);
        rec.heading("true tension there");
        let true_tension = self.tension(load, depth, vertical_depth, rec);
        let sides = [depth - SAME, depth + SAME].map(|depth| well.path.dogleg_severity_at(depth));
        Node {
            depth,
            inside,
            outside,
            true_tension,
            curvature: sides[0].max(sides[1]),
            yield_strength: self.yield_strength(vertical_depth, rec),
        }
    }

    /// Yield strength in the heat of the rock. [Pa]
    fn yield_strength<R: Recorder>(&self, vertical_depth: f64, rec: &mut R) -> f64 {
        let (casing, well) = (self.casing, &self.scene.fit().well);
        let start = well.elevation + well.water_depth;
        let warmer = |vertical_depth: f64| well.geotherm.at(vertical_depth, start) - well.geotherm.surface;
        let shoe_warming = warmer(self.scene.vertical_depth(casing.shoe));
        if casing.hot_yield >= 1.0 || shoe_warming < 1.0 {
            return casing.yield_strength;
        }
        let (share_left, warming) = (casing.hot_yield, warmer(vertical_depth));
        rec.take(HotYieldStrength { yield_strength: casing.yield_strength, share_left, warming, shoe_warming })
    }

    fn tension<R: Recorder>(&self, load: &Load, depth: f64, vertical_depth: f64, rec: &mut R) -> f64 {
        let (inner_area, outer_area) = (self.inner_area, self.outer_area);
        let ends = |effective_tension: f64, sides: &Sides, vertical_depth: f64| TrueTension {
            effective_tension,
            outside_pressure: sides.outside.at(vertical_depth, &mut Off),
            outer_area,
            inside_pressure: sides.inside.at(vertical_depth, &mut Off),
            inner_area,
        };
        let hanging = |sides: &Sides, rec: &mut R| {
            let shoe = self.scene.vertical_depth(self.casing.shoe);
            rec.note(|| "Freely hanging: pressures on the closed end, and the weight in air of what hangs below.".into());
            let end = rec.take(ends(0.0, sides, shoe));
            let weight = self.casing.linear_mass * self.gravity() * (shoe - vertical_depth);
            rec.given("weight in air below, along the vertical", weight, Kind::Force);
            end + weight
        };
        match &load.pull {
            Pull::Picked { drag, overpull } => {
                let effective = drag.heaviest_at(depth).0;
                rec.given("effective tension, picked up", effective, Kind::Force);
                rec.given("overpull wanted", *overpull, Kind::Force);
                rec.take(ends(effective + overpull, &load.sides, vertical_depth))
            }
            Pull::Hanging => hanging(&load.sides, rec),
            Pull::Held { was, means } => {
                let set = hanging(was, rec);
                rec.given("true tension when the cement set", set, Kind::Force);
                let cemented = self.casing.cement_top.is_none_or(|top| depth >= top - SAME);
                let (inside_change, outside_change) = if cemented {
                    rec.note(|| "Held by its cement: the changes of pressure at this depth pull on it.".into());
                    load.sides.since(was, vertical_depth)
                } else {
                    rec.note(|| {
                        "Held at hanger and cement: the mean changes of pressure over the length between pull on it.".into()
                    });
                    rec.table("changes of pressure since the cement set, along the free length", CHANGES, || {
                        let free_to = self.casing.cement_top.unwrap_or(self.casing.shoe);
                        let row = |depth: f64| {
                            let (inside, outside) = load.sides.since(was, self.scene.vertical_depth(depth));
                            vec![depth, inside, outside]
                        };
                        self.between(self.casing.top, free_to, &load.sides.inside).into_iter().map(row).collect()
                    });
                    *means
                };
                set + rec.take(FixedPipeForce { poisson: POISSON, inner_area, inside_change, outer_area, outside_change })
            }
        }
    }
}

const CHANGES: &[(&str, Kind)] =
    &[("measured depth", Kind::Depth), ("change inside", Kind::Pressure), ("change outside", Kind::Pressure)];

/// A column with a pressure, or every entry that is missing for both.
fn with(
    column: Result<Column, Vec<&'static str>>,
    pressure: Option<f64>,
    entry: &'static str,
) -> Result<(Column, f64), Vec<&'static str>> {
    match (column, pressure) {
        (Ok(column), Some(pressure)) => Ok((column, pressure)),
        (column, pressure) => {
            let mut missing = column.err().unwrap_or_default();
            missing.extend(pressure.is_none().then_some(entry));
            Err(missing)
        }
    }
}
