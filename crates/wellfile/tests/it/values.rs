//! Values and their provenance: what the example well says, worked out beside the program.

use crate::{Shelf, root};
use rigwright_units::Spread;
use rigwright_well::{Fit, PartKind, WearClass};
use rigwright_wellfile::{Disk, Loaded, Origin, read, read_again};

fn ostrick() -> Loaded {
    read(&root("examples/ostrick.toml"), None, &Disk).unwrap()
}

/// One part in a million: factors below are written with at least seven digits.
fn near(value: f64, wanted: f64) -> bool {
    (value - wanted).abs() <= 1e-6 * wanted.abs().max(1e-12)
}

/// Factors from NIST SP 811 (2008), appendix B.
#[test]
fn published_factors_reach_the_model() {
    let Fit { well, rig } = ostrick().fit;
    assert!(near(well.elevation, 28.0 * 0.3048));
    assert!(near(well.geotherm.surface, 293.15));
    assert!(near(well.geotherm.gradient, 1.4 / 1.8 / 30.48));
    assert!(near(well.margins.trip, 0.3 * 119.826_4));
    assert!(near(well.margins.overpull, 100e3 * 4.448_222));
    assert!(near(well.kick.volume.unwrap(), 25.0 * 0.158_987_3));
    let section = &well.sections[0];
    assert!(near(section.hole_diameter, 0.4445));
    assert!(near(section.washout, 0.10));
    assert!(near(section.drilling.flow_rate, 950.0 * 6.309_020e-5));
    assert!(near(section.drilling.rotary_speed, 120.0 * std::f64::consts::TAU / 60.0));
    assert!(near(section.drilling.penetration_rate, 80.0 * 0.3048 / 3600.0));
    assert!(near(section.drilling.bit_torque, 4500.0 * 1.355_818));
    assert!(near(section.string[1].linear_mass, 150.0 * 1.488_164));
    assert!(near(section.string[2].yield_strength.unwrap(), 55e3 * 6_894.757));
    assert!(near(rig.pits.barite.unwrap(), 120e3));
    assert!(near(rig.pits.resupply.unwrap(), 604_800.0));
    assert!(near(rig.drawworks.power, 1500.0 * 745.699_9));
    assert!(near(rig.sets.fuel[1].rate, 158e-3 / 3600.0));
    assert!(near(rig.sets.fuel[1].load, 0.5));
    assert!(near(rig.accumulator.unwrap().bottle_volume, 10.0 * 3.785_412e-3));
}

/// A pressure as an equivalent mud weight is that of a column of such mud down to the vertical depth: at 7000 ft,
/// 9.6 ppg is 9.6 x 119.8264 kg/m3 x 9.80665 m/s2 x 2133.6 m = 24.0690 MPa.
#[test]
fn law_equivalent_mud_weights_become_pressures_at_their_depth() {
    let well = ostrick().fit.well;
    let orm = &well.formations[2];
    assert!((orm.pore[0] - 24.0690e6).abs() < 50.0, "{}", orm.pore[0]);
    assert!(near(orm.pore[1], 10.8 * 119.826_427 * 9.806_65 * 11_200.0 * 0.3048));
    assert!(near(well.formations[0].base, 3000.0 * 0.3048));
    assert!(well.formations[0].pore[0].abs() < 1e-9);
}

#[test]
fn law_the_three_ways_of_a_rock_pressure_agree() {
    let small = std::fs::read_to_string(root("tests/valid/well.toml")).unwrap();
    // 9.2 ppg is 0.477922 psi/ft by 12/231, and 2867.53 psi at the base of 6000 ft.
    let pore = |text: &str| {
        let text = small.replace("pore = [\"8.6 ppg\", \"9.2 ppg\"]", &format!("pore = [\"1000 psi\", \"{text}\"]"));
        let shelf = Shelf::new(&[("tests/valid/it.toml", &text)]);
        read("tests/valid/it.toml", None, &shelf).unwrap().fit.well.formations[1].pore[1]
    };
    assert!((pore("9.2 ppg") - pore("0.4779221 psi/ft")).abs() < 20.0);
    assert!((pore("9.2 ppg") - pore("2867.53 psi")).abs() < 50.0);
}

#[test]
fn law_a_string_is_used_again_with_another_bit() {
    let sections = ostrick().fit.well.sections;
    let (first, second) = (&sections[0].string, &sections[1].string);
    assert_eq!(second.len(), first.len());
    assert_eq!(second[0].kind, PartKind::Bit);
    assert!(near(second[0].outer_diameter, 12.25 * 0.0254));
    assert!(near(second[1].outer_diameter, first[1].outer_diameter));
    assert!(second.last().unwrap().length.is_infinite());
    assert_eq!(second[3].class, WearClass::Premium);
    assert_eq!((second[0].nozzles, first[0].nozzles), (Some(5), Some(4)));
    assert!(near(sections[1].top, sections[0].bottom));
}

#[test]
fn law_a_given_value_tells_its_line_text_and_spread() {
    let text = std::fs::read_to_string(root("tests/valid/well.toml"))
        .unwrap()
        .replace("\"9.2 ppg\"\nreadings", "\"9.2 +/- 0.3 ppg\"\nreadings");
    let shelf = Shelf::new(&[("tests/valid/it.toml", &text)]);
    let loaded = read("tests/valid/it.toml", None, &shelf).unwrap();
    let Some(Origin::Given { source, line, span, text: written, spread }) = loaded.provenance.get("section[0].mud.weight") else {
        panic!("the mud weight is written")
    };
    assert_eq!(source.name, "tests/valid/it.toml");
    assert_eq!(text.lines().nth(line - 1).unwrap(), "weight = \"9.2 +/- 0.3 ppg\"");
    assert_eq!(&text[span.clone()], "\"9.2 +/- 0.3 ppg\"");
    assert_eq!(written, "9.2 +/- 0.3 ppg");
    // Two standard deviations stand after the sign.
    let Spread::Normal { standard_deviation } = spread else { panic!("a spread is written") };
    assert!(near(*standard_deviation, 0.15 * 119.826_4));
    assert!(near(loaded.fit.well.sections[0].mud.weight, 9.2 * 119.826_4));
    let Some(Origin::Given { source, text, .. }) = loaded.provenance.get("rig.line.strung") else { panic!("lines are written") };
    assert_eq!((source.name.as_str(), text.as_str()), ("tests/valid/rig.toml", "10"));
}

#[test]
fn law_assumptions_are_listed_with_their_source() {
    let loaded = ostrick();
    let all: Vec<(&str, &str, &str)> = loaded.provenance.defaults().collect();
    let find = |path: &str| all.iter().find(|row| row.0 == path).unwrap_or_else(|| panic!("{path} is assumed"));
    assert_eq!(find("survey").1, "vertical");
    assert_eq!(find("rig.line.sheave_factor").1, "1.04");
    assert!(find("rig.line.design_factor").2.contains("API RP 9B"));
    assert_eq!(find("reserves.load").1, "10 %");
    assert_eq!(find("section[1].tripping.pulling_speed").1, "90 ft/min");
    // 9 5/8 in casing: drift 5/32 in below the inside (API 5CT): 8.681 - 0.156 = 8.525 in.
    assert_eq!(find("section[1].casing.drift").1, "8.52475 in");
    assert!(all.iter().all(|(_, text, source)| !text.is_empty() && !source.is_empty()));
    assert!(!all.iter().any(|row| row.0 == "friction.cased"), "it is written");
    let unknown: Vec<&str> = loaded.provenance.unknown().collect();
    assert!(unknown.contains(&"section[2].casing.leak_off"));
    assert!(unknown.contains(&"jurisdiction"));
    assert!(!unknown.contains(&"kick.volume"));
    assert!(!unknown.iter().any(|path| path.contains("managed_pressure")));
}

#[test]
fn law_provenance_runs_in_the_order_of_the_files() {
    let loaded = ostrick();
    let mut last = (false, 0);
    for (path, origin) in loaded.provenance.iter() {
        if let Origin::Given { line, .. } = origin {
            let here = (path.starts_with("rig."), *line);
            assert!(here >= last, "{path} stands in line {line}");
            last = here;
        }
    }
    assert!(loaded.provenance.iter().count() > 250);
}

#[test]
fn law_a_survey_may_stand_in_its_own_file() {
    let small = std::fs::read_to_string(root("tests/valid/well.toml")).unwrap();
    let with = |survey: &str| {
        small.replace("[[formation]]\nname = \"sand\"", &format!("[survey]\n{survey}\n\n[[formation]]\nname = \"sand\""))
    };
    let apart = with("file = \"survey.csv\"");
    let inside = with(
        "stations = [[\"0 ft\", \"0 deg\", \"0 deg\"], [\"3000 ft\", \"2.5 deg\", \"140 deg\"], [\"6000 ft\", \"3 deg\", \"141 deg\"]]",
    );
    let shelf = Shelf::new(&[("tests/valid/apart.toml", &apart), ("tests/valid/inside.toml", &inside)]);
    let apart = read("tests/valid/apart.toml", None, &shelf).unwrap();
    let inside = read("tests/valid/inside.toml", None, &shelf).unwrap();
    assert_eq!(apart.sources.len(), 3);
    for depth in [500.0, 1500.0] {
        let (a, b) = (apart.fit.well.path.vertical_depth_at(depth), inside.fit.well.path.vertical_depth_at(depth));
        assert!((a - b).abs() < 1e-9 && a < depth, "{a} {b}");
    }
    let broken =
        Shelf::new(&[("tests/valid/apart.toml", &with("file = \"x.csv\"")), ("tests/valid/x.csv", "md [ft],inc [deg]\n0,0\n")]);
    let findings = read("tests/valid/apart.toml", None, &broken).unwrap_err();
    assert_eq!(findings.list[0].code, "well::survey-file");
    assert_eq!(findings.list[0].labels[0].place.source.name, "tests/valid/x.csv");
}

/// 5 in drill pipe of 19.50 lb/ft is 4.276 in inside (API RP 7G), 7 in casing of 29 lb/ft 6.184 in (API 5CT).
#[test]
fn published_sizes_stand_for_what_is_left_out() {
    let text = std::fs::read_to_string(root("tests/valid/well.toml")).unwrap();
    let short = text.replace("inside = \"4.276 in\"", "nominal = \"19.5 lb/ft\"").replace("inside = \"6.184 in\"\n", "");
    assert_ne!(text, short);
    let shelf = Shelf::new(&[("tests/valid/it.toml", &short)]);
    let loaded = read("tests/valid/it.toml", None, &shelf).unwrap();
    let sections = &loaded.fit.well.sections;
    assert!(near(sections[0].string[2].inner_diameter, 4.276 * 0.0254));
    assert!(near(sections[0].string[2].linear_mass, 21.9 * 1.488_164));
    assert!(near(sections[1].casing.as_ref().unwrap().inner_diameter, 6.184 * 0.0254));
    let assumed = |path: &str| loaded.provenance.defaults().find(|row| row.0 == path).map(|row| (row.1.to_owned(), row.2));
    assert_eq!(assumed("section[0].string[2].inside").unwrap().0, "4.276 in");
    assert!(assumed("section[1].casing.inside").unwrap().1.contains("API 5CT"));
}

#[test]
fn law_a_liner_rounded_in_millimetres_is_the_rigs_own() {
    let text =
        std::fs::read_to_string(root("tests/valid/well.toml")).unwrap().replace("liner = \"6 1/2 in\"", "liner = \"165 mm\"");
    let shelf = Shelf::new(&[("tests/valid/it.toml", &text)]);
    let fit = read("tests/valid/it.toml", None, &shelf).unwrap().fit;
    assert!(fit.rig.pump.liner(fit.well.sections[0].drilling.liner).is_some());
}

/// Definition: a well that is read again is the well that is read, whether its rig says the same or not.
#[test]
fn law_reading_again_is_reading() {
    let text = std::fs::read_to_string(root("tests/valid/well.toml")).unwrap();
    let rig = std::fs::read_to_string(root("tests/valid/rig.toml")).unwrap();
    let known = read("tests/valid/well.toml", None, &Shelf::new(&[])).unwrap();
    let lighter = text.replace("\"9.2 ppg\"\nreadings", "\"9.1 ppg\"\nreadings");
    let other_rig = rig.replacen("strung = 10", "strung = 8", 1);
    let no_well = text.replace("\"9.2 ppg\"\nreadings", "\"9.2 pg\"\nreadings");
    assert!(lighter != text && other_rig != rig && no_well != text);
    for (well, rig) in [(&text, &rig), (&lighter, &rig), (&text, &other_rig), (&lighter, &other_rig), (&no_well, &rig)] {
        let shelf = Shelf::new(&[("tests/valid/well.toml", well), ("tests/valid/rig.toml", rig)]);
        let (once, again) = (read("tests/valid/well.toml", None, &shelf), read_again("tests/valid/well.toml", &shelf, &known));
        let said = |read: &Result<Loaded, _>| read.as_ref().ok().map(|read| (read.fit.clone(), format!("{:?}", read.provenance)));
        assert!(said(&once) == said(&again), "{:?} {:?}", once.err(), again.err());
        assert_eq!(format!("{:?}", once.err()), format!("{:?}", again.err()));
    }
}
