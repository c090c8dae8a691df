//! Moments that a steady load does not tell of: a motor that starts straight on the line, and the night without main power.

use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::power::loads::{MotorApparentPower, StartableApparentPower, StartingApparentPower};
use rigwright_physics::power::sets::VoltageDip;
use rigwright_physics::{Kind, Recorder};

pub(super) fn starting<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let sets = &fit.rig.sets;
    let (Some(motor), Some(rated_apparent_power), Some(transient_reactance)) =
        (fit.rig.largest_motor, sets.apparent_rating, sets.transient_reactance)
    else {
        let given = [
            (fit.rig.largest_motor.is_some(), "rig.largest_motor.power"),
            (sets.apparent_rating.is_some(), "rig.sets.apparent_rating"),
            (sets.transient_reactance.is_some(), "rig.sets.transient_reactance"),
        ];
        return Answer::Missing(given.into_iter().filter(|(given, _)| !given).map(|(_, entry)| entry).collect());
    };
    rec.heading("what the motor draws at rest");
    let apparent_power = rec.take(MotorApparentPower {
        output_power: motor.power,
        efficiency: motor.efficiency,
        power_factor: motor.power_factor,
    });
    let starting_power = rec.take(StartingApparentPower {
        current_ratio: motor.current_ratio,
        starting_voltage: motor.starting_voltage,
        apparent_power,
    });
    rec.heading("what the generators on line start");
    let on_line = f64::from(sets.on_line);
    if sets.on_line > 0 {
        rec.take(VoltageDip { transient_reactance, starting_power, sets: on_line, rated_apparent_power });
    }
    let voltage_dip = sets.voltage_dip;
    let capacity = rec.take(StartableApparentPower { voltage_dip, sets: on_line, rated_apparent_power, transient_reactance });
    let limit = Limit {
        capacity,
        reserve: (fit.well.reserves.power * capacity).max(1.0),
        name: "generators on line at the allowed dip of their voltage",
        source: "nameplate of the generators; voltage divider of generators and a motor at rest",
    };
    Answer::Judged(Judged { demand: starting_power, limit, place: Place::Surface, zero: 0.0 })
}

pub(super) fn emergency<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let emergency = &fit.rig.emergency;
    let loads = [
        ("preventer control", emergency.preventer_control, "rig.emergency.preventer_control"),
        ("lights", emergency.lights, "rig.emergency.lights"),
        ("auxiliary brake", emergency.brake, "rig.emergency.brake"),
    ];
    let mut missing: Vec<&'static str> = Vec::new();
    let mut demand = 0.0;
    for (what, load, entry) in loads {
        match load {
            Some(power) => {
                rec.given(what, power, Kind::Power);
                demand += power;
            }
            None => missing.push(entry),
        }
    }
    rec.given("all that is known, together", demand, Kind::Power);
    let Some(capacity) = emergency.rating else {
        missing.insert(0, "rig.emergency.rating");
        return Answer::Missing(missing);
    };
    let limit = Limit {
        capacity,
        reserve: fit.well.reserves.power * capacity,
        name: "emergency set",
        source: "nameplate of the emergency set",
    };
    let judged = Judged { demand, limit, place: Place::Surface, zero: 0.0 };
    // A load that nobody knows only adds to the others.
    if missing.is_empty() || judged.room() < 0.0 { Answer::Judged(judged) } else { Answer::Missing(missing) }
}
