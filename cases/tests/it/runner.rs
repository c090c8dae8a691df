//! The runner itself: a wrong print, a wrong key or an unexplained tolerance must fail.

use rigwright_cases::{Row, Verdict, check_all, parse};

/// Runs one check of the hydrostatic formula with these lines in it.
fn run(lines: &str) -> Row {
    let text = format!(
        "[[case]]\nid = \"one\"\nwhat = \"a column\"\nsource = \"arithmetic\"\nkind = \"derived\"\n[[case.check]]\n{lines}\n"
    );
    check_all(&[parse("inline", &text).expect("the inline case reads")]).remove(0)
}

/// 1000 kg/m³ x 10 m/s² x 10 m is 100 kPa by hand.
const COLUMN: &str = "formula = \"hydrostatic-pressure\"\ngiven = { density = \"1000 kg/m3\", vertical_depth = \"10 m\", gravity = \"10 m/s2\" }\n";

fn column(lines: &str) -> Row {
    run(&format!("{COLUMN}{lines}"))
}

fn why(row: &Row) -> String {
    row.failure().unwrap_or_else(|| panic!("it should fail: {row:?}"))
}

#[test]
fn law_a_right_print_is_met_and_a_wrong_one_is_not() {
    assert_eq!(column("printed = \"100 kPa\"").verdict, Verdict::Met);
    assert_eq!(column("printed = \"100.00 kPa\"").verdict, Verdict::Met);
    assert_eq!(column("printed = \"1.0e2 kPa\"").verdict, Verdict::Met);
    assert!(why(&column("printed = \"100.01 kPa\"")).contains("off by"));
    assert!(why(&column("printed = \"99 kPa\"")).contains("off by"));
    assert!(why(&column("printed = \"-100 kPa\"")).contains("off by"));
}

#[test]
fn law_a_known_wrong_print_must_miss_and_its_right_value_must_meet() {
    assert_eq!(column("printed = \"110 kPa\"\nwrong = true\nright = \"100 kPa\"").verdict, Verdict::WrongPrint);
    assert!(why(&column("printed = \"100 kPa\"\nwrong = true\nright = \"100 kPa\"")).contains("meets the print"));
    assert!(why(&column("printed = \"110 kPa\"\nwrong = true\nright = \"101 kPa\"")).contains("off by"));
    assert!(why(&column("printed = \"110 kPa\"\nwrong = true")).contains("go together"));
    assert!(why(&column("printed = \"100 kPa\"\nright = \"100 kPa\"")).contains("go together"));
}

#[test]
fn law_a_tolerance_needs_a_reason_and_holds_in_its_own_unit() {
    assert!(why(&column("printed = \"102 kPa\"\ntolerance = \"3 kPa\"")).contains("go together"));
    assert_eq!(column("printed = \"102 kPa\"\ntolerance = \"3 kPa\"\nreason = \"read off a chart\"").verdict, Verdict::Met);
    assert_eq!(column("printed = \"102 kPa\"\ntolerance = \"0.03 bar\"\nreason = \"read off a chart\"").verdict, Verdict::Met);
    assert!(why(&column("printed = \"102 kPa\"\ntolerance = \"1 kPa\"\nreason = \"read off a chart\"")).contains("off by"));
}

#[test]
fn rejects_what_cannot_be_computed() {
    let given = |given: &str| run(&format!("formula = \"hydrostatic-pressure\"\ngiven = {{ {given} }}\nprinted = \"100 kPa\""));
    assert!(why(&given("density = \"1000 kg/m3\"")).contains("`vertical_depth` is not given"));
    assert!(
        why(&given("density = \"1000 kg/m3\", vertical_depth = \"10 m\", depth = \"10 m\""))
            .contains("given but not used: depth")
    );
    assert!(why(&given("density = \"1000 psi\", vertical_depth = \"10 m\"")).contains("density"));
    assert!(why(&given("density = \"-1 kg/m3\", vertical_depth = \"10 m\"")).contains("refused: density"));
    assert!(why(&run("formula = \"no-such\"\nprinted = \"1 m\"")).contains("there is no formula"));
    assert!(why(&run("procedure = \"no-such\"\noutput = \"p\"\nprinted = \"1 m\"")).contains("there is no procedure"));
    assert!(why(&run("printed = \"1 m\"")).contains("needs either"));
    assert!(why(&column("printed = \"100 ft\"")).contains("100 ft"));
    assert!(why(&column("printed = \"100\"")).contains("100"));
}

#[test]
fn rejects_unknown_keys_of_the_file() {
    assert!(parse("inline", "[[case]]\nid = \"one\"\ncolour = \"red\"").is_err());
}

#[test]
fn law_a_row_shows_its_figures_in_the_printed_unit() {
    let row = column("printed = \"100.0 kPa\"");
    assert_eq!((row.computed.as_str(), row.error.as_str(), row.tolerance.as_str()), ("100.000 kPa", "0.000 kPa", "0.05 kPa"));
    assert_eq!(row.system, "circulating");
}
