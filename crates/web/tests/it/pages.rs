//! The pages, read as text.

use crate::site::Site;
use hyper::StatusCode;
use rigwright_papers::figure::PICTURES;
use rigwright_papers::paper::PAPERS;
use rigwright_press::{NO_TYPESETTER, TYPESETTER};

#[tokio::test]
async fn the_first_screen_names_the_weakest_link() {
    let site = Site::new();
    assert!(site.get("/").await.text.contains("ostrick.toml"));
    let page = site.get("/sheet?well=tolvane.toml").await.text;
    let first = page.find("Weakest link").expect("it is named");
    assert!(first < page.find("<table").expect("a sheet"));
    assert!(page[first..].contains("short") && page[first..].contains("To mend it"));
}

#[tokio::test]
async fn every_cell_opens_into_its_working() {
    let site = Site::new();
    for well in ["ostrick.toml", "tolvane.toml"] {
        let page = site.get(&format!("/sheet?well={well}")).await.text;
        let cells: Vec<String> = page
            .split("class=\"cell")
            .skip(1)
            .filter_map(|rest| rest.split("href=\"").nth(1)?.split('"').next())
            .map(|url| url.replace("&amp;", "&"))
            .collect();
        assert!(cells.len() > 60, "{}", cells.len());
        for cell in cells {
            let answer = site.get(&cell).await;
            assert_eq!(answer.status, StatusCode::OK, "{cell}");
            assert!(answer.text.contains("Working"), "{cell}");
        }
    }
}

#[tokio::test]
async fn every_picture_has_its_numbers_and_csv() {
    let site = Site::new();
    for (well, sections) in [("ostrick.toml", 3), ("tolvane.toml", 3)] {
        let mut drawn = 0;
        for picture in &PICTURES {
            for (section, units) in (0..sections).zip(["field", "metric", "canadian"]) {
                let query = format!("well={well}&show={}&section={section}&units={units}", picture.slug);
                let shown = site.get(&format!("/pictures?{query}")).await.text;
                let csv = site.get(&format!("/pictures.csv?{query}")).await;
                assert!(
                    shown.contains("Nothing to draw") || shown.contains("<svg class") || shown.contains("class=\"figure\""),
                    "{query}"
                );
                if shown.contains("Nothing to draw") {
                    assert_eq!(csv.status, StatusCode::NOT_FOUND, "{query}");
                    continue;
                }
                drawn += 1;
                assert_eq!(csv.headers.get("content-type").expect("set"), "text/csv; charset=utf-8", "{query}");
                assert!(csv.text.lines().count() > 2, "{query}: {}", csv.text);
                assert!(!csv.text.contains("NaN") && !csv.text.contains("inf") && !shown.contains("NaN"), "{query}");
                assert_eq!(shown.contains("class=\"shut-in\""), picture.control, "{query}");
            }
        }
        assert!(drawn > 30, "{well}: {drawn}");
    }
}

#[tokio::test]
async fn a_range_is_looked_at_closer() {
    let site = Site::new();
    for show in ["window", "hook-load"] {
        let saved = site.get(&format!("/pictures.csv?well=ostrick.toml&show={show}&from=8000&to=9000")).await;
        let depths: Vec<f64> =
            saved.text.lines().skip(1).map(|line| line.split(',').next().expect("a depth").parse().expect("a number")).collect();
        assert!(!depths.is_empty() && depths.iter().all(|depth| (8000.0..=9000.0).contains(depth)), "{show}: {depths:?}");
    }
}

/// Kill sheet of training: ICP = SIDPP + SCR: 572 + 350 psi read at 30 spm; KMW from 0.052 with the trade's constants (common practice).
#[tokio::test]
async fn published_the_kill_desk_adds_up() {
    let site = Site::new();
    let query = "/kill?well=ostrick.toml&section=2&sidpp=572+psi&sicp=700+psi&gain=20+bbl&hole=11000+ft&speed=30+spm&pumped=0";
    let request = hyper::Request::get(query).header("host", "127.0.0.1:7117").header("cookie", "constants=trade");
    let page = site.send(request.body(axum::body::Body::empty()).expect("a request")).await.text;
    // 11.5 + 572 / (0.052 x 11000) = 12.5 ppg.
    for wanted in ["12.50 ppg", "922 psi", "shut in first", "STALE", "← now"] {
        assert!(page.contains(wanted), "no {wanted}");
    }
}

/// Signatures of the file formats: ISO 32000-1 section 7.5.2 (`%PDF-`), and the local file header of the ZIP file format
/// specification section 4.3.7 (`PK`), which packages of ISO/IEC 29500-2 are.
#[tokio::test]
async fn published_every_paper_is_read_and_saved() {
    let site = Site::new();
    let list = site.get("/papers?well=ostrick.toml&size=letter&beside=metric").await.text;
    let of = |path: &str| -> Vec<String> {
        let urls = list.split("href=\"").skip(1).filter_map(|rest| rest.split('"').next()).map(|url| url.replace("&amp;", "&"));
        urls.filter(|url| url.starts_with(path)).collect()
    };
    let read = of("/paper?");
    for kind in PAPERS {
        assert!(read.iter().any(|url| url.contains(&format!("paper={}&", kind.slug))), "no {}", kind.slug);
    }
    for url in &read {
        let page = site.get(url).await;
        assert_eq!(page.status, StatusCode::OK, "{url}");
        for wanted in ["inputs ", "Cautions", "(metric)"] {
            assert!(page.text.contains(wanted), "{url}: no {wanted}");
        }
    }
    assert!(!of("/paper.xlsx?").is_empty());
    for url in of("/paper.xlsx?") {
        let book = site.get(&url).await;
        assert_eq!(book.status, StatusCode::OK, "{url}");
        assert!(book.text.starts_with("PK"), "{url}");
    }
    let pdf = site.get("/paper.pdf?well=ostrick.toml&paper=limits-card&section=1&size=letter").await;
    if TYPESETTER {
        assert!(pdf.text.starts_with("%PDF-"));
        let saved = pdf.headers.get("content-disposition").expect("to be saved").to_str().expect("a name");
        assert_eq!(saved, "attachment; filename=\"ostrick-limits-card-2.pdf\"");
    } else {
        assert!(pdf.text.contains(NO_TYPESETTER));
    }
}

#[tokio::test]
async fn rejects_papers_that_nobody_should_sign() {
    let site = Site::new();
    for path in ["/paper", "/paper.pdf", "/paper.xlsx"] {
        let whatif = site.get(&format!("{path}?well=ostrick.toml&paper=rig-fit&if.section[2].mud.weight=12+ppg")).await;
        assert_eq!(whatif.status, StatusCode::CONFLICT, "{path}");
        assert!(whatif.text.contains("these values are not in them"), "{path}");
        let faulty = site.get(&format!("{path}?well=no-such.toml&paper=rig-fit")).await;
        assert_eq!(faulty.status, StatusCode::UNPROCESSABLE_ENTITY, "{path}");
        let unknown = site.get(&format!("{path}?well=ostrick.toml&paper=../../etc/passwd")).await;
        assert_eq!(unknown.status, StatusCode::NOT_FOUND, "{path}");
        let wrong =
            site.get(&format!("{path}?well=ostrick.toml&paper=kill-sheet&section=2&sidpp=much&sicp=1+psi&gain=1+bbl")).await;
        assert_eq!(wrong.status, StatusCode::UNPROCESSABLE_ENTITY, "{path}");
        assert!(wrong.text.contains("shut-in drill pipe pressure"), "{path}: {}", wrong.text);
    }
    let sheet = site.get("/paper.pdf?well=ostrick.toml&paper=rig-fit&size=a0").await;
    assert_eq!(sheet.status, StatusCode::UNPROCESSABLE_ENTITY);
    let none = site.get("/paper.xlsx?well=ostrick.toml&paper=handover").await;
    assert_eq!(none.status, StatusCode::NOT_FOUND);
}

/// The report on the page and by the command are one paper: `leak-off` is held to its published pick elsewhere.
#[tokio::test]
async fn law_a_record_beside_the_well_makes_its_paper() {
    let site = Site::new();
    let list = site.get("/papers?well=ostrick.toml").await.text;
    assert!(list.contains("value=\"shoe-test.csv\"") && list.contains("value=\"casing-tally.csv\""));
    let report = "well=ostrick.toml&paper=leak-off-report&section=0&record=shoe-test.csv";
    let page = site.get(&format!("/paper?{report}")).await;
    assert_eq!(page.status, StatusCode::OK);
    assert!(page.text.contains("<svg") && page.text.contains("shoe-test.csv"));
    assert!(site.get(&format!("/paper.xlsx?{report}")).await.text.starts_with("PK"));
    let sheet = site.get("/paper?well=ostrick.toml&paper=running-sheet&section=1&record=casing-tally.csv").await;
    assert_eq!(sheet.status, StatusCode::OK);
    assert!(sheet.text.contains("casing-tally.csv"));
    for (paper, record) in [
        ("leak-off-report", "casing-tally.csv"),
        ("running-sheet", "shoe-test.csv"),
        ("leak-off-report", "../../../etc/passwd"),
        ("running-sheet", "../../../etc/passwd"),
        ("rig-fit", "shoe-test.csv"),
    ] {
        let wrong = site.get(&format!("/paper?well=ostrick.toml&paper={paper}&section=1&record={record}")).await;
        assert_eq!(wrong.status, StatusCode::UNPROCESSABLE_ENTITY, "{paper} {record}");
        assert!(!wrong.text.contains("root:"), "{paper} {record}");
    }
}

/// A stale slow rate stands on the face of the paper as on the desk, and its workbook holds the way to the figures.
#[tokio::test]
async fn law_the_kill_desk_and_its_paper_agree() {
    let site = Site::new();
    let query = "well=ostrick.toml&section=2&sidpp=572+psi&sicp=700+psi&gain=20+bbl&hole=11000+ft&speed=30+spm";
    let desk = site.get(&format!("/kill?{query}")).await.text;
    let paper = site.get(&format!("/paper?paper=kill-sheet&{query}")).await.text;
    let weight = desk.split("kill mud weight</dt><dd>").nth(1).and_then(|rest| rest.split('<').next()).expect("a weight");
    assert!(weight.ends_with("ppg") && paper.contains(weight), "{weight}");
    assert!(desk.contains("As a paper") && desk.contains("STALE") && paper.contains("STALE"));
    assert!(site.get(&format!("/paper.xlsx?paper=kill-sheet&{query}")).await.text.starts_with("PK"));
}

/// 30 CFR 250.737(a): preventers every 14 days.
#[tokio::test]
async fn published_rules_of_the_settings_hold_where_the_well_names_none() {
    let site = Site::new();
    let bare = site.get("/due?well=ostrick.toml").await.text;
    assert!(bare.contains("nothing is shown as met") && !bare.contains("250.737"));
    let kept = site.post("/settings", &[("jurisdiction", "us-ocs"), ("back", "/due?well=ostrick.toml")]).await;
    let cookie =
        kept.headers.get("set-cookie").expect("kept").to_str().expect("text").split(';').next().expect("a pair").to_owned();
    let due = async || {
        let request = hyper::Request::get("/due?well=ostrick.toml").header("host", "127.0.0.1:7117").header("cookie", &cookie);
        site.send(request.body(axum::body::Body::empty()).expect("a request")).await.text
    };
    let page = due().await;
    for wanted in ["30 CFR 250.737(a)", "14 days", "your settings", "verify the current text"] {
        assert!(page.contains(wanted), "no {wanted}");
    }
    // A well that names its own is not overruled.
    let named = format!("jurisdiction = \"Elsewhere\"\n{}", site.file("ostrick.toml"));
    std::fs::write(site.folder.join("ostrick.toml"), named).expect("written");
    let page = due().await;
    assert!(page.contains("<b>Elsewhere</b>") && page.contains("nothing is shown as met") && !page.contains("250.737"));
}

#[tokio::test]
async fn units_follow_the_setting() {
    let site = Site::new();
    let kept = site.post("/settings", &[("units", "metric"), ("theme", "night"), ("back", "//elsewhere.example/")]).await;
    assert_eq!(kept.headers.get("location").expect("set"), "/", "no way out of these pages");
    let cookies: Vec<String> = kept
        .headers
        .get_all("set-cookie")
        .iter()
        .map(|cookie| cookie.to_str().expect("text").split(';').next().expect("a pair").to_owned())
        .collect();
    let request =
        hyper::Request::get("/sheet?well=ostrick.toml").header("host", "127.0.0.1:7117").header("cookie", cookies.join("; "));
    let page = site.send(request.body(axum::body::Body::empty()).expect("a request")).await.text;
    assert!(page.contains("data-theme=\"night\"") && !page.contains(" 11,000 ft"));
}

#[tokio::test]
async fn names_of_users_are_no_markup() {
    let site = Site::new();
    let text = site.file("ostrick.toml").replacen("name = \"", "name = \"<script>alert(1)</script>", 1);
    std::fs::write(site.folder.join("ostrick.toml"), text).expect("written");
    for path in ["/sheet", "/pictures", "/edit", "/answer"] {
        let page = site.get(&format!("{path}?well=ostrick.toml&question=hoisting/hook-load&section=1")).await.text;
        assert!(!page.contains("<script>alert"), "{path}");
    }
}

#[tokio::test]
async fn text_that_makes_no_well_is_not_saved_and_not_lost() {
    let site = Site::new();
    let page = site.get("/edit?well=ostrick.toml").await.text;
    let seen = crate::site::field(&page, "seen");
    let before = site.file("ostrick.toml");
    let broken = before.replacen("kind = ", "kinds = ", 1);
    let pairs = [("well", "ostrick.toml"), ("file", "ostrick.toml"), ("seen", seen.as_str()), ("text", broken.as_str())];
    let checked = site.post("/check", &pairs).await;
    assert!(checked.text.contains("did you mean") && !checked.text.contains("<html"));
    let answer = site.post("/edit", &pairs).await;
    assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(answer.text.contains("kinds = "));
    assert_eq!(site.file("ostrick.toml"), before);
    let good = before.replacen("# ", "# changed: ", 1);
    let pairs = [("well", "ostrick.toml"), ("file", "ostrick.toml"), ("seen", seen.as_str()), ("text", good.as_str())];
    assert_eq!(site.post("/edit", &pairs).await.status, StatusCode::SEE_OTHER);
    assert_eq!(site.file("ostrick.toml"), good);
}

#[tokio::test]
async fn a_new_well_reads_and_a_survey_goes_in() {
    let site = Site::new();
    assert_eq!(site.post("/new", &[("name", "Brenna 4")]).await.status, StatusCode::SEE_OTHER);
    assert_eq!(site.get("/sheet?well=brenna-4.toml").await.status, StatusCode::OK);
    assert_eq!(site.post("/new", &[("name", "Brenna 4")]).await.status, StatusCode::CONFLICT);
    let wrong = site.post("/survey", &[("well", "ostrick.toml"), ("csv", "a,b\n1,2\n")]).await;
    assert_eq!(wrong.status, StatusCode::UNPROCESSABLE_ENTITY);
    let csv = "md [ft],inclination [deg],azimuth [deg]\n0,0,0\n5000,1,40\n11500,2,60\n";
    let taken = site.post("/survey", &[("well", "ostrick.toml"), ("csv", csv)]).await;
    assert_eq!(taken.status, StatusCode::SEE_OTHER, "{}", taken.text);
    assert!(site.file("ostrick.toml").contains("-survey-20261125-060000.csv"));
    assert_eq!(site.get("/sheet?well=ostrick.toml").await.status, StatusCode::OK);
}
