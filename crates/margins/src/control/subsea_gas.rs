//! Gas between preventers on the sea bed and a floating rig: in the choke line while it is circulated out, and trapped under the
//! closed preventer after the kill.

use super::kill::{deepest_reading, kill_mud_weight};
use super::subsea::slow_rate_loss;
use super::{NO_PVT, ROCK_HEAT, can_shut_in};
use crate::circulating::pumps::pump_output;
use crate::fields::influx::{formation_pressure, rock_temperature};
use crate::question::{Question, Scope};
use crate::{Answer, Figure, Scene};
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_physics::circulating::passage::BoreCapacity;
use rigwright_physics::control::gas::{GasState, ZMethod};
use rigwright_physics::control::kick::InfluxVolumeByMass;
use rigwright_physics::control::kill::{KillStrokes, PumpingTime};
use rigwright_physics::control::subsea::GasInChokeLine;
use rigwright_physics::{Kind, Off, Recorder, STANDARD_ATMOSPHERE, Working};
use rigwright_well::Riser;

pub(super) const QUESTIONS: &[Question] = &[
    Question {
        slug: "control/choke-line-gas",
        asks: "How much must the choke put on while gas fills the choke line, and within which time?",
        title: "gas in the choke line",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[
            "gas comes as one front, at the pump rate, and fills the whole line; its own friction is left out",
            "the gas weighs what it does at the sea bed with mud all the way down below it: gas that reaches further down is pressed harder and weighs more, so that the figure is a little high",
            NO_PVT,
        ],
        ask: in_line::<Off>,
        show: in_line::<Working>,
    },
    Question {
        slug: "control/trapped-gas",
        asks: "What does gas trapped under the closed preventer do when it comes up the riser?",
        title: "trapped gas",
        kind: Kind::Volume,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[
            "the space is full of gas under the kill mud in the choke line; the riser holds kill mud, nothing is held on top",
            "it comes up as one slug that grows to the pressure of the air: the most that it can push out",
            ROCK_HEAT,
            NO_PVT,
        ],
        ask: trapped::<Off>,
        show: trapped::<Working>,
    },
];

const NOT_SUBSEA: Answer = Answer::DoesNotArise("preventers at surface: no choke line to the sea bed");
const OUT_OF_RANGE: Answer = Answer::DoesNotArise("the gas is colder than its correlation can tell");

/// What both questions stand on; `Err` with the answer where there is nothing to ask.
struct Ground {
    riser: Riser,
    /// Depth of the sea bed: length of riser and choke line. [m]
    bed: f64,
    /// Kill mud weight of the design kick. [kg/m³]
    kill_weight: f64,
    /// Its formation pressure. [Pa]
    formation_pressure: f64,
}

impl Ground {
    fn of<R: Recorder>(scene: &Scene, rec: &mut R) -> Result<Ground, Answer> {
        let fit = scene.fit();
        let Some((riser, bed)) = fit.riser(scene.situation.section).zip(fit.well.sea_bed()) else { return Err(NOT_SUBSEA) };
        if !can_shut_in(scene) {
            return Err(super::DIVERTED);
        }
        let Some(intensity) = fit.well.kick.intensity else { return Err(Answer::Missing(vec!["kick.intensity"])) };
        let kill_weight = kill_mud_weight(scene, intensity, rec);
        Ok(Ground { riser: *riser, bed, kill_weight, formation_pressure: formation_pressure(scene, intensity, &mut Off) })
    }
}

/// Density of the gas at a gauge pressure and the heat of the rock at a depth. [kg/m³]
fn gas_density<R: Recorder>(scene: &Scene, pressure: f64, vertical_depth: f64, rec: &mut R) -> Option<f64> {
    let state = GasState { pressure: pressure + STANDARD_ATMOSPHERE, temperature: rock_temperature(scene, vertical_depth) };
    scene.basis.influx.gas.density(rec, ZMethod::Tabulated, state)
}

fn in_line<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let Ground { riser, bed, formation_pressure, .. } = match Ground::of(scene, rec) {
        Ok(ground) => ground,
        Err(answer) => return answer,
    };
    let Some(slow) = deepest_reading(scene) else { return Answer::Missing(vec!["section[].slow_rate[]"]) };
    let Some(output) = pump_output(scene, rec) else { return Answer::Missing(vec!["rig.pump.rod"]) };
    let (mud_weight, gravity) = (scene.section().mud.weight, scene.gravity());
    let Some(choke_line_friction) = slow_rate_loss(scene, mud_weight, rec) else {
        return Answer::Missing(vec!["section[].slow_rate[].choke_line_loss"]);
    };
    rec.heading("the gas as it comes to the sea bed, mud below it down to the bottom");
    let below = scene.vertical_depth(scene.situation.hole_depth) - bed;
    let column = rec.take(Hydrostatic { density: mud_weight, vertical_depth: below, gravity });
    let pressure = (formation_pressure - column).max(0.0);
    rec.given("formation pressure less that mud", pressure, Kind::Pressure);
    let Some(gas_density) = gas_density(scene, pressure, bed, rec) else { return OUT_OF_RANGE };
    rec.heading("what the line loses when gas has filled it");
    let rise = rec.take(GasInChokeLine { mud_weight, gas_density, height: bed, choke_line_friction, gravity });
    rec.heading("how soon, at the slow rate");
    let volume = rec.take(BoreCapacity { inner_diameter: riser.choke_line }) * bed;
    rec.given("volume of the choke line", volume, Kind::Volume);
    let strokes = rec.take(KillStrokes { volume, pump_output: output });
    let time = rec.take(PumpingTime { strokes, pump_speed: slow.pump_speed });
    rec.note(|| {
        "Put it on while the gas comes, and take it off again when mud follows: in both the time is the same.".to_owned()
    });
    Answer::Told(vec![
        Figure { name: "to put on the choke while gas fills the line", value: rise, kind: Kind::Pressure },
        Figure { name: "of it friction that is gone", value: choke_line_friction, kind: Kind::Pressure },
        Figure { name: "strokes until the line is full of gas", value: strokes, kind: Kind::Count },
        Figure { name: "time until then at the slow rate", value: time, kind: Kind::Time },
    ])
}

fn trapped<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let Ground { riser, bed, kill_weight, .. } = match Ground::of(scene, rec) {
        Ok(ground) => ground,
        Err(answer) => return answer,
    };
    let Some(volume) = riser.trapped_volume else { return Answer::Missing(vec!["rig.riser.trapped_volume"]) };
    let gravity = scene.gravity();
    rec.heading("as it stays under the preventer after the kill");
    let pressure = rec.take(Hydrostatic { density: kill_weight, vertical_depth: bed, gravity });
    let Some(density) = gas_density(scene, pressure, bed, rec) else { return OUT_OF_RANGE };
    rec.heading("as it comes to the rig");
    let Some(other_density) = gas_density(scene, 0.0, 0.0, rec) else { return OUT_OF_RANGE };
    let at_surface = rec.take(InfluxVolumeByMass { volume, density, other_density });
    rec.heading("what it pushes out of the riser");
    let pieces = scene.annuli().iter().filter(|piece| piece.riser);
    let (room, length) =
        pieces.fold((0.0, 0.0), |(room, length), piece| (room + piece.capacity() * piece.length(), length + piece.length()));
    rec.given("volume of the riser around the string", room, Kind::Volume);
    let height = if at_surface < room { length * at_surface / room } else { length };
    rec.given("height of riser that it fills", height, Kind::Depth);
    let lost = rec.take(Hydrostatic { density: kill_weight, vertical_depth: height, gravity });
    rec.note(|| {
        "Clear it first: circulate the space through the choke line, let the gas out under a closed preventer, put kill mud into the riser, and only then open.".to_owned()
    });
    Answer::Told(vec![
        Figure { name: "pressure of the trapped gas", value: pressure, kind: Kind::Pressure },
        Figure { name: "its volume at surface", value: at_surface, kind: Kind::Volume },
        Figure { name: "height of riser that it then fills", value: height, kind: Kind::Depth },
        Figure { name: "pressure that the well then lacks", value: lost, kind: Kind::Pressure },
    ])
}
