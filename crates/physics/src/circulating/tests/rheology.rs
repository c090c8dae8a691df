//! Laws of the viscometer and the fit.

use crate::Off;
use crate::circulating::casson::Casson;
use crate::circulating::choose::best_fit;
use crate::circulating::fit::fit_herschel_bulkley;
use crate::circulating::rheology::*;
use crate::circulating::viscometer::*;

const SPEEDS: [f64; 6] = [600.0, 300.0, 200.0, 100.0, 6.0, 3.0];

fn points(curve: &HerschelBulkley) -> Vec<(f64, f64)> {
    SPEEDS
        .iter()
        .map(|&speed_rpm| {
            let rate = Reading { speed_rpm, dial: 0.0 }.shear_rate();
            (rate, curve.stress(rate))
        })
        .collect()
}

#[test]
fn law_a_fit_gives_back_the_curve_of_exact_readings() {
    for yield_stress in [0.0, 0.05, 1.0, 3.5, 12.0] {
        for flow_index in [0.2, 0.31, 0.5, 0.72, 0.95, 1.0] {
            for consistency in [0.02, 0.3, 2.0] {
                let curve = HerschelBulkley { yield_stress, consistency, flow_index };
                let fit = fit_herschel_bulkley(&points(&curve), &mut Off);
                let scale = curve.stress(SHEAR_300);
                assert!((fit.curve.flow_index - flow_index).abs() < 1e-6, "{curve:?} {fit:?}");
                assert!((fit.curve.yield_stress - yield_stress).abs() < 1e-6 * scale, "{curve:?} {fit:?}");
                assert!((fit.curve.consistency / consistency - 1.0).abs() < 1e-6, "{curve:?} {fit:?}");
                assert!(fit.mean_error < 1e-8, "{fit:?}");
            }
        }
    }
}

#[test]
fn law_a_fit_is_at_least_as_good_as_the_estimate_by_hand() {
    for dials in [[62.0, 40.0, 31.0, 21.0, 8.0, 7.0], [44.0, 29.0, 23.0, 16.0, 6.0, 5.0], [90.0, 50.0, 35.0, 18.0, 2.0, 1.2]] {
        let readings: Vec<Reading> = SPEEDS.iter().zip(dials).map(|(&speed_rpm, dial)| Reading { speed_rpm, dial }).collect();
        let made = |model| MudRheology::from_readings(&readings, model, DialConvention::Trade, &mut Off).unwrap().0;
        let squares = |curve: HerschelBulkley| -> f64 {
            readings.iter().map(|one| (curve.stress(one.shear_rate()) / one.stress(DialConvention::Trade) - 1.0).powi(2)).sum()
        };
        let (fit, hand) = (made(FlowModel::HerschelBulkley).curve, made(FlowModel::HerschelBulkleyEstimate).curve);
        assert!(squares(fit) <= squares(hand), "{fit:?} {hand:?}");
        assert!(fit.yield_stress >= 0.0 && fit.yield_stress <= dials[5] * DialConvention::Trade.stress_per_degree());
        assert!((0.2..=1.0).contains(&fit.flow_index));
    }
}

#[test]
fn law_every_model_goes_through_its_readings() {
    let readings = [Reading { speed_rpm: 600.0, dial: 62.0 }, Reading { speed_rpm: 300.0, dial: 40.0 }];
    for model in [FlowModel::Bingham, FlowModel::PowerLaw] {
        let (mud, _) = MudRheology::from_readings(&readings, model, DialConvention::Spring, &mut Off).unwrap();
        for reading in readings {
            // Plastic viscosity and yield point are defined on the trade's degree.
            let convention = if model == FlowModel::Bingham { DialConvention::Trade } else { DialConvention::Spring };
            let (curve, read) = (mud.curve.stress(reading.shear_rate()), reading.stress(convention));
            let loose = if model == FlowModel::Bingham { 0.05 } else { 1e-12 };
            assert!((curve / read - 1.0).abs() < loose, "{model:?} {curve} {read}");
        }
    }
}

#[test]
fn law_the_spring_raises_every_stress_alike() {
    let readings: Vec<Reading> =
        SPEEDS.iter().zip([62.0, 40.0, 31.0, 21.0, 8.0, 7.0]).map(|(&speed_rpm, dial)| Reading { speed_rpm, dial }).collect();
    let made = |convention| MudRheology::from_readings(&readings, FlowModel::HerschelBulkley, convention, &mut Off).unwrap().0;
    let (trade, spring) = (made(DialConvention::Trade), made(DialConvention::Spring));
    assert!((spring.curve.stress(100.0) / trade.curve.stress(100.0) - 1.067).abs() < 1e-6);
    assert!((spring.turbulent_index - trade.turbulent_index).abs() < 1e-12);
}

#[test]
fn law_stress_and_shear_rate_undo_each_other() {
    for rheology in [
        Rheology::Newtonian { viscosity: 1e-3 },
        Rheology::Bingham { plastic_viscosity: 0.02, yield_point: 7.0 },
        Rheology::PowerLaw { consistency: 0.4, flow_index: 0.6 },
        super::CURVE,
    ] {
        for rate in [0.01, 1.0, 170.0, 1022.0] {
            assert!((rheology.shear_rate(rheology.stress(rate)) / rate - 1.0).abs() < 1e-9);
        }
        assert!(rheology.shear_rate(0.5 * rheology.stress(0.0)) < 1e-300);
    }
}

#[test]
fn law_a_model_is_told_by_its_own_viscometer() {
    let mud = MudRheology::of(Rheology::PowerLaw { consistency: 0.4, flow_index: 0.6 });
    for law in [mud.pipe_law, mud.annulus_law] {
        assert!((law.flow_index - 0.6).abs() < 1e-12 && (law.consistency / 0.4 - 1.0).abs() < 1e-12);
    }
    assert!((mud.turbulent_index - 0.6).abs() < 1e-12);
    let water = MudRheology::of(Rheology::Newtonian { viscosity: 1e-3 });
    assert!((water.plastic_viscosity - 1e-3).abs() < 1e-15 && water.yield_point < 1e-12);
}

#[test]
fn rejects_readings_that_make_no_curve() {
    let made = |list: &[(f64, f64)]| {
        let readings: Vec<Reading> = list.iter().map(|&(speed_rpm, dial)| Reading { speed_rpm, dial }).collect();
        MudRheology::from_readings(&readings, FlowModel::HerschelBulkleyEstimate, DialConvention::Trade, &mut Off).unwrap_err()
    };
    assert_eq!(made(&[(600.0, 62.0)]), RheologyError::Missing(300));
    assert_eq!(made(&[(600.0, 62.0), (300.0, 40.0)]), RheologyError::Missing(6));
    assert_eq!(made(&[(600.0, 40.0), (300.0, 62.0)]), RheologyError::NotRising);
    assert_eq!(made(&[(600.0, 40.0), (300.0, 40.0)]), RheologyError::NotRising);
    assert_eq!(made(&[(600.0, 62.0), (300.0, 40.0), (6.0, 3.0), (3.0, 4.0)]), RheologyError::NotRising);
    assert_eq!(made(&[(600.0, 62.0), (300.0, 0.0)]), RheologyError::NotPositive);
    assert_eq!(made(&[(600.0, f64::NAN), (300.0, 1.0)]), RheologyError::NotPositive);
}

/// Readings that one of the models draws exactly: that model is chosen, though models with more numbers draw them too.
#[test]
fn law_the_best_fit_is_the_model_that_made_the_readings() {
    let casson = Casson { yield_stress: 2.0, high_shear_viscosity: 0.015 };
    let power = HerschelBulkley { yield_stress: 0.0, consistency: 0.4, flow_index: 0.6 };
    let bingham = HerschelBulkley { yield_stress: 4.0, consistency: 0.02, flow_index: 1.0 };
    let all = HerschelBulkley { yield_stress: 3.0, consistency: 0.3, flow_index: 0.7 };
    let chosen = |stress: &dyn Fn(f64) -> f64| {
        let dial = |speed_rpm: f64| {
            let rate = Reading { speed_rpm, dial: 0.0 }.shear_rate();
            Reading { speed_rpm, dial: stress(rate) / DialConvention::Trade.stress_per_degree() }
        };
        let readings: Vec<Reading> = SPEEDS.iter().map(|speed| dial(*speed)).collect();
        let (mud, best) = best_fit(&readings, DialConvention::Trade, &mut Off).unwrap();
        assert!(best.error.unwrap() < 1e-6 && best.worst.abs() < 1e-6, "{best:?}");
        for reading in &readings {
            let rate = reading.shear_rate();
            assert!((mud.stress(rate) / stress(rate) - 1.0).abs() < 1e-6, "{best:?}");
        }
        (best.model, mud.curve.flow_index)
    };
    assert_eq!(chosen(&|rate| casson.stress(rate)).0, FlowModel::Casson);
    assert_eq!(chosen(&|rate| power.stress(rate)).0, FlowModel::PowerLaw);
    assert_eq!(chosen(&|rate| all.stress(rate)).0, FlowModel::HerschelBulkley);
    // The trade's plastic viscosity and yield point rest on two different degrees of the dial, 1.067 and 1 lbf/100 ft², so that
    // its Bingham line misses even readings that lie on a line.
    let (model, index) = chosen(&|rate| bingham.stress(rate));
    assert_eq!(model, FlowModel::HerschelBulkley);
    assert!((index - 1.0).abs() < 1e-9);
}

#[test]
fn law_two_readings_test_no_model() {
    let readings = [Reading { speed_rpm: 600.0, dial: 62.0 }, Reading { speed_rpm: 300.0, dial: 40.0 }];
    let (_, best) = best_fit(&readings, DialConvention::Trade, &mut Off).unwrap();
    assert_eq!((best.model, best.error), (FlowModel::Bingham, None));
}

#[test]
fn law_a_power_law_in_two_regions_has_one_law_in_pipe_and_one_in_the_annulus() {
    let dials = [65.0, 39.0, 30.0, 20.0, 4.0, 3.0];
    let readings: Vec<Reading> = SPEEDS.iter().zip(dials).map(|(&speed_rpm, dial)| Reading { speed_rpm, dial }).collect();
    let made = |model| MudRheology::from_readings(&readings, model, DialConvention::Trade, &mut Off).unwrap().0;
    let (one, two) = (made(FlowModel::PowerLaw), made(FlowModel::PowerLawInTwo));
    assert_eq!(one.curve, two.curve);
    for (speed, dial) in [(600.0, 65.0), (300.0, 39.0), (100.0, 20.0), (3.0, 3.0)] {
        let read = Reading { speed_rpm: speed, dial };
        let stress = two.stress(read.shear_rate());
        assert!((stress / read.stress(DialConvention::Trade) - 1.0).abs() < 1e-12, "{speed} rpm");
    }
    assert!((one.annulus_curve.stress(5.1) / two.annulus_curve.stress(5.1) - 1.0).abs() > 0.05);
}
