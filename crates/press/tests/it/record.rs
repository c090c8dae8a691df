//! Papers of a record beside the files: a shoe test and a tally, read back as their readers meet them.

use crate::paper::{no_word_leaves_its_sheet, set_pdf, text_of, words};
use crate::{demo, with_desk};
use rigwright_margins::running_sheet::running_sheet;
use rigwright_margins::steps::{PumpIn, ShoeTested, shoe_tested};
use rigwright_papers::paper::{Desk, Paper, Record, fingerprint_of, leak_off_report, running_paper};
use rigwright_press::Size;
use rigwright_units::{Kind, System, show_down, show_up};
use rigwright_well::{Piece, PieceKind, Tally};
use rigwright_wellfile::{Disk, pump_in, tally};

const RECORD: &str = include_str!("../../../../examples/shoe-test.csv");

fn tested(desk: &Desk, keep: usize) -> ShoeTested {
    let rows = pump_in(RECORD).expect("the example is a record");
    let record: Vec<PumpIn> =
        rows.iter().take(keep).map(|[volume, pressure]| PumpIn { volume: *volume, pressure: *pressure }).collect();
    shoe_tested(desk.subject.fit, 1, &record, None).expect("it is read")
}

fn report(desk: &Desk, tested: &ShoeTested, file: &str) -> Paper {
    leak_off_report(desk, tested, &Record { file, print: &fingerprint_of(RECORD) })
}

#[test]
fn law_a_leak_off_report_says_what_the_record_tells() {
    with_desk(&demo("ostrick.toml"), System::Field, None, |desk| {
        let tested = tested(desk, usize::MAX);
        let pick = tested.test.pick.expect("the example leaks off");
        let text = words(&text_of("leak-off", &set_pdf(&report(desk, &tested, "shoe-test.csv"), Size::A4), "-layout"));
        let field = |value: f64, kind: Kind| show_down(value, kind, System::Field);
        for said in [
            "Leak-off report".to_owned(),
            field(pick.pressure, Kind::Pressure),
            show_up(pick.at_most, Kind::Pressure, System::Field),
            field(tested.rounded, Kind::Density),
            format!("fingerprint of the record {}", fingerprint_of(RECORD)),
            "LOT".to_owned(),
            "the plot in numbers".to_owned(),
            "pressure at surface [psi]".to_owned(),
            "weaker zones below may exist. An integrity test".to_owned(),
        ] {
            assert!(text.contains(&said), "no `{said}` in {text}");
        }
        assert!(tested.rounded <= tested.weight && !text.contains("FIT: the record"), "{text}");
    });
}

#[test]
fn law_a_test_that_stops_early_is_no_fracture_pressure() {
    with_desk(&demo("ostrick.toml"), System::Metric, None, |desk| {
        let tested = tested(desk, 9);
        let text = words(&text_of("integrity", &set_pdf(&report(desk, &tested, "shoe-test.csv"), Size::Letter), "-layout"));
        assert!(tested.integrity_only());
        for said in
            ["Integrity test report", "FIT: the record never leaves its line", "no fracture pressure", "integrity shown to"]
        {
            assert!(text.contains(said), "no `{said}` in {text}");
        }
        assert!(!text.contains("leak-off pressure"), "{text}");
    });
}

#[test]
fn law_a_running_sheet_says_what_the_tally_adds_up_to() {
    let file = format!("{}/../../examples/casing-tally.csv", env!("CARGO_MANIFEST_DIR"));
    let tallied = tally(&file, &Disk).expect("the example is a tally");
    with_desk(&demo("ostrick.toml"), System::Field, None, |desk| {
        let desk = Desk { section: Some(1), ..*desk };
        let sheet = running_sheet(desk.subject.fit, 1, Some(&tallied.tally)).expect("casing is run");
        assert!(sheet.sums.agree() && sheet.space_out.stick_up > 0.0);
        let print = fingerprint_of(&tallied.source.text);
        let paper = running_paper(&desk, &sheet, &Record { file: "casing-tally.csv", print: &print });
        let text = words(&text_of("running", &set_pdf(&paper, Size::A4), "-layout"));
        let hook = show_up(sheet.pieces.last().expect("pieces go in").hook.up, Kind::Force, System::Field);
        for said in
            ["7192.76 ft", "2.76 ft", "FC1", "page 18", &hook, &format!("fingerprint of the tally {print}"), "on the float"]
        {
            assert!(text.contains(said), "no `{said}` in {text}");
        }
    });
}

/// A tally of a name as long as its cell allows, in two systems of units side by side.
#[test]
fn law_long_names_stay_on_their_sheets() {
    let mut loaded = demo("ostrick.toml");
    let long = "Øst-Rïck-".repeat(12);
    loaded.fit.well.name = long.clone();
    loaded.fit.rig.name = format!("{long} {long}");
    loaded.fit.well.datum = long.clone();
    loaded.fit.well.sections[1].casing.as_mut().expect("it ends in casing").name = long.clone();
    let piece = |index: usize| Piece {
        number: format!("{long}{index}"),
        kind: [PieceKind::Joint, PieceKind::Collar, PieceKind::Pup][index % 3],
        length: 12.345,
        make_up_loss: 0.1,
        linear_mass: None,
        grade: long.clone(),
        remark: long.clone(),
    };
    let tally = Tally { overall: true, pieces: (0..60).map(piece).collect() };
    with_desk(&loaded, System::Field, Some(System::Metric), |desk| {
        let sheet = running_sheet(desk.subject.fit, 1, Some(&tally)).expect("casing is run");
        let print = fingerprint_of("");
        no_word_leaves_its_sheet("extreme-tally", &running_paper(desk, &sheet, &Record { file: &long, print: &print }));
        no_word_leaves_its_sheet("extreme-leak-off", &report(desk, &tested(desk, usize::MAX), &long));
    });
}
