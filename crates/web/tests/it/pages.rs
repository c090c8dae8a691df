//! The pages, read as text.

use crate::site::Site;
use hyper::StatusCode;
use rigwright_papers::figure::PICTURES;

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
