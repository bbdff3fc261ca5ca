//! Routes laid on their charts.

use super::*;

#[test]
fn a_route_is_shown_on_its_own_chart_or_not_at_all() {
    let practice = ::chart::practice().unwrap();
    let session = Session::default();
    let own = |title: &str| own_chart(&Route::new(title), None, &session, false);
    assert_eq!(own(&practice.title).unwrap().chart.title, practice.title);
    assert_eq!(
        own("Ternhaven Sound").err().unwrap().to_string(),
        "the route is laid on the chart “Ternhaven Sound”; name its file with --chart"
    );
}
