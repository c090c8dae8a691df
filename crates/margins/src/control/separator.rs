//! Separator and choke: the largest kill rate that the vent lets go, and the bores that the kill asks of the choke.

use super::kill::peak;
use super::shut_in::design_kick;
use crate::answer::Figure;
use crate::circulating::pumps::pump_output;
use crate::fields::influx::{rock_temperature, show_gas};
use crate::question::{Question, Scope};
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::circulating::friction::{Colebrook, Reynolds};
use rigwright_physics::control::choke::{ChokeBoreForGas, ChokeBoreForMud, DISCHARGE};
use rigwright_physics::control::gas::{GasState, MOLAR_GAS_CONSTANT, ZMethod};
use rigwright_physics::control::separator::{GasMassRate, GasRateAtStandard, MudLegPressure, VentLine};
use rigwright_physics::numerics::root;
use rigwright_physics::{Kind, Off, Recorder, Root, STANDARD_ATMOSPHERE, Working};
use std::f64::consts::FRAC_PI_4;

/// Viscosity of methane near surface conditions, from memory. [Pa·s]
const GAS_VISCOSITY: f64 = 1.1e-5;
/// Ratio of specific heats of a light natural gas, common practice.
pub(super) const HEAT_RATIO: f64 = 1.3;

const PEAK: &str = "driller's method with the design kick as one bubble: gas at surface gives the peak; the slow rate of the deepest reading is the kill rate";
const SLUG: &str = "free gas goes through the choke as fast as mud is pumped, as warm as the rock at surface";

/// Its questions.
pub(super) const QUESTIONS: &[Question] = &[
    Question {
        slug: "control/separator",
        asks: "Does the mud leg of the separator hold while the peak of gas goes out through the vent at the kill rate?",
        title: "separator",
        kind: Kind::FlowRate,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[
            PEAK,
            SLUG,
            "gas that expands along the vent at one temperature; a vent that is choked is taken as too small",
            "on blow-through stop or divert: the seal is not to be relied on",
        ],
        ask: separator::<Off>,
        show: separator::<Working>,
    },
    Question {
        slug: "control/choke-size",
        asks: "Which bores of the choke does the kill ask for, with mud at the start and with gas at the peak?",
        title: "choke size",
        kind: Kind::Diameter,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[PEAK, SLUG, "gas at the speed of sound in the choke; a discharge coefficient of 0.85"],
        ask: choke::<Off>,
        show: choke::<Working>,
    },
];

/// Gas at the choke at the peak of the kill. [SI]
struct Peak {
    /// Kill rate.
    flow_rate: f64,
    /// Gauge pressure at the choke, shut in and at the peak.
    pressures: [f64; 2],
    /// Temperature, and the compressibility factor and density of the gas at the peak.
    temperature: f64,
    factor: f64,
    density: f64,
}

/// The peak, or the answer in its place.
fn gas_at_choke<R: Recorder>(scene: &Scene, rec: &mut R) -> Result<Peak, Answer> {
    if scene.fit().well.casing_above(scene.situation.section).is_none() {
        return Err(super::DIVERTED);
    }
    design_kick(scene)?;
    let Some(slow) = super::kill::deepest_reading(scene) else { return Err(Answer::Missing(vec!["section[].slow_rate[]"])) };
    let Some(output) = pump_output(scene, rec) else { return Err(Answer::Missing(vec!["rig.pump.rod"])) };
    let flow_rate = output * slow.pump_speed;
    rec.given("kill rate: output times the slow rate's pump speed", flow_rate, Kind::FlowRate);
    show_gas(scene, rec);
    let Some(pressures) = peak(scene) else {
        return Err(Answer::DoesNotArise("the design kick is not one bubble that comes to surface"));
    };
    rec.heading("gas at the choke");
    rec.given("casing pressure, shut in", pressures[0], Kind::Pressure);
    rec.given("casing pressure with gas at surface, driller's method: see `control/kill`", pressures[1], Kind::Pressure);
    let temperature = rock_temperature(scene, 0.0);
    let state = GasState { pressure: pressures[1] + STANDARD_ATMOSPHERE, temperature };
    let gas = scene.basis.influx.gas;
    let factor = gas.factor(&mut Off, ZMethod::Tabulated, state);
    let density = gas.density(rec, ZMethod::Tabulated, state);
    let Some((factor, density)) = factor.zip(density) else {
        return Err(Answer::DoesNotArise("the gas leaves the range of its correlation"));
    };
    Ok(Peak { flow_rate, pressures, temperature, factor, density })
}

/// Absolute pressure in the separator at a kill rate; `None` where the vent is choked. [Pa]
fn in_separator<R: Recorder>(scene: &Scene, peak: &Peak, vent: [f64; 3], flow_rate: f64, rec: &mut R) -> Option<f64> {
    let [length, inner_diameter, roughness] = vent;
    let gas_rate = rec.take(GasRateAtStandard {
        flow_rate,
        absolute_pressure: peak.pressures[1] + STANDARD_ATMOSPHERE,
        temperature: peak.temperature,
        factor: peak.factor,
        standard_pressure: STANDARD_ATMOSPHERE,
        standard_temperature: STANDARD_TEMPERATURE,
    });
    let molar_mass = scene.basis.influx.gas.molar_mass;
    let mass_rate = rec.take(GasMassRate { gas_rate, molar_mass });
    let outlet_density = ideal_density(molar_mass, peak.temperature);
    rec.given("density of the gas at the end of the vent, an ideal gas", outlet_density, Kind::Density);
    let area = FRAC_PI_4 * inner_diameter * inner_diameter;
    let past = GasPast { mass_rate, density: outlet_density, area, width: inner_diameter, roughness };
    let friction_factor = past.friction_factor(rec);
    let line = VentLine { length, inner_diameter, friction_factor, outlet_pressure: STANDARD_ATMOSPHERE, outlet_density };
    line.inlet_pressure(rec, mass_rate)
}

/// Density of an ideal gas in the air. [kg/m³]
pub(super) fn ideal_density(molar_mass: f64, temperature: f64) -> f64 {
    STANDARD_ATMOSPHERE * molar_mass / (MOLAR_GAS_CONSTANT * temperature)
}

/// Gas that flows past rough walls. [SI]
#[derive(Clone, Copy, Debug)]
pub(super) struct GasPast {
    pub(super) mass_rate: f64,
    /// Anywhere along the way: it drops out.
    pub(super) density: f64,
    pub(super) area: f64,
    /// Hydraulic diameter.
    pub(super) width: f64,
    pub(super) roughness: f64,
}

impl GasPast {
    /// Darcy friction factor. [-]
    pub(super) fn friction_factor<R: Recorder>(&self, rec: &mut R) -> f64 {
        let GasPast { mass_rate, density, area, width, roughness } = *self;
        let reynolds = Reynolds { density, velocity: mass_rate / (density * area), width, viscosity: GAS_VISCOSITY };
        let reynolds = rec.take(reynolds);
        let fanning = rec.take(Colebrook { reynolds, relative_roughness: roughness / width });
        rec.given("Darcy friction factor: four times Fanning's", 4.0 * fanning, Kind::Ratio);
        4.0 * fanning
    }
}

/// Standard temperature of gas rates: 60 °F. [K]
const STANDARD_TEMPERATURE: f64 = 288.705_555_555_555_6;

fn separator<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let peak = match gas_at_choke(scene, rec) {
        Ok(peak) => peak,
        Err(answer) => return answer,
    };
    let Some(separator) = scene.fit().rig.separator else { return Answer::Missing(vec!["rig.separator"]) };
    let needed = [
        (separator.leg, "rig.separator.leg"),
        (separator.leg_weight, "rig.separator.leg_weight"),
        (separator.vent_length, "rig.separator.vent_length"),
        (separator.vent_inside, "rig.separator.vent_inside"),
    ];
    let (Some(height), Some(leg_density), Some(length), Some(inside)) =
        (separator.leg, separator.leg_weight, separator.vent_length, separator.vent_inside)
    else {
        return Answer::Missing(needed.iter().filter(|(value, _)| value.is_none()).map(|(_, entry)| *entry).collect());
    };
    let vent = [length, inside, separator.vent_roughness];
    rec.heading("the leg of mud");
    let leg = rec.take(MudLegPressure { leg_density, height, gravity: scene.gravity() });
    rec.heading("the vent at the kill rate");
    rec.given("length of the vent, bends as length", length, Kind::Depth);
    let now = in_separator(scene, &peak, vent, peak.flow_rate, rec);
    match now {
        Some(now) => rec.given("pressure in the separator, gauge", now - STANDARD_ATMOSPHERE, Kind::Pressure),
        None => rec.note(|| "At the kill rate the vent is choked: gas would have to leave faster than sound.".to_owned()),
    }
    // A choked vent counts as far too much.
    let over = |flow_rate: f64| {
        let inside = in_separator(scene, &peak, vent, flow_rate, &mut Off);
        inside.map_or(1e9, |inside| inside - STANDARD_ATMOSPHERE) - leg
    };
    let mut high = peak.flow_rate.max(1e-6);
    while over(high) < 0.0 && high < 10.0 {
        high *= 2.0;
    }
    // At a hundredth of the kill rate nothing is lost that a leg could feel: one that is blown then holds nothing.
    let low = 0.01 * peak.flow_rate;
    let capacity = if over(low) < 0.0 { root(over, low, high).unwrap_or(low) } else { 0.0 };
    rec.root(Root {
        equation: "p(vent at Q) - p_atm = p_leg",
        sign: "Q",
        meaning: "kill rate at which the leg is just blown",
        kind: Kind::FlowRate,
        value: capacity,
        residual: over(capacity),
        residual_kind: Kind::Pressure,
    });
    let reserve = scene.fit().well.reserves.volume * peak.flow_rate;
    let limit = Limit { capacity, reserve, name: "largest kill rate of the separator", source: "mud leg, and the vent by Darcy" };
    Answer::Judged(Judged { demand: peak.flow_rate, limit, place: Place::Surface, zero: 0.0 })
}

fn choke<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let peak = match gas_at_choke(scene, rec) {
        Ok(peak) => peak,
        Err(answer) => return answer,
    };
    let [shut_in, highest] = peak.pressures;
    if shut_in <= 0.0 {
        return Answer::DoesNotArise("the design kick leaves no pressure at the casing");
    }
    rec.heading("mud through the choke, at the start");
    let mud = rec.take(ChokeBoreForMud {
        flow_rate: peak.flow_rate,
        mud_weight: scene.section().mud.weight,
        pressure_drop: shut_in,
        discharge_coefficient: DISCHARGE,
    });
    rec.heading("gas through the choke, at the peak");
    let gas = rec.take(ChokeBoreForGas {
        flow_rate: peak.flow_rate,
        density: peak.density,
        absolute_pressure: highest + STANDARD_ATMOSPHERE,
        heat_ratio: HEAT_RATIO,
        discharge_coefficient: DISCHARGE,
    });
    rec.note(|| {
        "The choke must be closed in from the first to the second as gas arrives, and opened again when mud follows.".into()
    });
    let demand = mud.max(gas);
    let Some(capacity) = scene.fit().rig.choke_bore else {
        return Answer::Told(vec![
            Figure { name: "bore for mud at the start", value: mud, kind: Kind::Diameter },
            Figure { name: "bore for gas at the peak", value: gas, kind: Kind::Diameter },
        ]);
    };
    let reserve = scene.fit().well.reserves.pressure * demand;
    let limit = Limit { capacity, reserve, name: "largest bore of the chokes", source: "nameplate" };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

#[cfg(test)]
mod tests {
    use crate::{Answer, Verdict, explain, question};
    use rigwright_well::{Fit, Separator};

    fn ask(fit: &Fit, slug: &str) -> Answer {
        let address = crate::Address { section: Some(2), ..Default::default() };
        explain(fit, question(slug).unwrap(), &address).unwrap().asked.answer
    }

    fn with(length: f64, inside: f64) -> Fit {
        let mut fit = crate::example("ostrick");
        fit.rig.separator = Some(Separator {
            leg: Some(3.0),
            leg_weight: Some(600.0),
            vent_length: Some(length),
            vent_inside: Some(inside),
            vent_roughness: 4.6e-5,
        });
        fit
    }

    #[test]
    fn law_a_longer_or_narrower_vent_takes_less() {
        let capacity = |length, inside| ask(&with(length, inside), "control/separator").judged().unwrap().limit.capacity;
        let base = capacity(60.0, 0.2);
        assert!(capacity(120.0, 0.2) < base && capacity(60.0, 0.15) < base);
        // Loss goes with the square of the rate: four times the leg, twice the rate, but for friction that falls a little.
        let mut fit = with(60.0, 0.2);
        fit.rig.separator.as_mut().unwrap().leg = Some(12.0);
        let more = ask(&fit, "control/separator").judged().unwrap().limit.capacity;
        assert!((1.9..2.1).contains(&(more / base)), "{}", more / base);
    }

    #[test]
    fn law_every_vent_of_use_is_judged() {
        for (length, inside) in [(5.0, 0.3), (67.0, 0.203_2), (200.0, 0.1), (400.0, 0.05)] {
            let judged = *ask(&with(length, inside), "control/separator").judged().unwrap();
            assert!(judged.limit.capacity > 0.0, "{length} {inside}");
        }
    }

    #[test]
    fn rejects_a_separator_that_nobody_measured() {
        let mut fit = with(60.0, 0.2);
        fit.rig.separator.as_mut().unwrap().leg_weight = None;
        assert_eq!(ask(&fit, "control/separator"), Answer::Missing(vec!["rig.separator.leg_weight"]));
        fit.rig.separator = None;
        assert_eq!(ask(&fit, "control/separator"), Answer::Missing(vec!["rig.separator"]));
    }

    #[test]
    fn law_the_choke_flips_at_its_bore() {
        let mut fit = with(60.0, 0.2);
        fit.rig.choke_bore = None;
        let Answer::Told(figures) = ask(&fit, "control/choke-size") else { panic!("no bore is given") };
        let (mud, gas) = (figures[0].value, figures[1].value);
        assert!(mud > gas && gas > 0.0);
        fit.rig.choke_bore = Some(mud);
        assert_eq!(ask(&fit, "control/choke-size").verdict(), Verdict::Thin);
        fit.rig.choke_bore = Some(mud.next_down());
        assert_eq!(ask(&fit, "control/choke-size").verdict(), Verdict::Short);
    }
}
