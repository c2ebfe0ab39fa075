//! The wind at which a load as large as this one may still hang on the crane.

/// Wind area per mass that charts allow for, shape included, m²/kg: 1.2 m² a tonne (EN 13000, from memory).
pub const CHART_AREA_M2_PER_KG: f64 = 0.0012;

/// Pressure of a wind, Pa: `q = v²/1.6`.
///
/// Source: EN 13000 form; half the density of air at 1.25 kg/m³ times v².
pub fn pressure_pa(speed_m_s: f64) -> f64 {
    speed_m_s * speed_m_s / 1.6
}

/// Force of a wind on a face, N: `F = q·c_w·A`.
///
/// Source: EN 13000 form.
pub fn force_n(speed_m_s: f64, drag: f64, area_m2: f64) -> f64 {
    pressure_pa(speed_m_s) * drag * area_m2
}

/// The wind at which a load may still hang, m/s, a 3-second gust at the boom head: `v = v_chart·√(0.0012·m/(c_w·A))`, never above the chart's own.
///
/// `mass_kg` the lightest credible load with its rigging, `drag` c_w, `area_m2` the largest projected face. It guards the crane, not the landing.
///
/// Source: EN 13000 (from memory) and crane makers' wind sheets.
pub fn permitted_m_s(chart_m_s: f64, mass_kg: f64, drag: f64, area_m2: f64) -> f64 {
    let share = CHART_AREA_M2_PER_KG * mass_kg / (drag * area_m2);
    chart_m_s * share.max(0.0).sqrt().min(1.0)
}

/// A 3-second gust at a height over the 10-minute mean at 10 m: `(z/10)^0.14 + 0.4`.
///
/// `height_m` above ground; below 10 m taken at 10 m, on the safe side.
///
/// Source: EN 13000 (from memory); 1.400 at 10 m, 1.502 at 20 m, 1.653 at 50 m.
pub fn gust_factor(height_m: f64) -> f64 {
    libm::pow((height_m / 10.0).max(1.0), 0.14) + 0.4
}

/// The largest face of a box as it turns: over its diagonal, m²: `A = H·√(L² + W²)`.
///
/// Source: geometry.
pub fn largest_face_m2(length_m: f64, width_m: f64, height_m: f64) -> f64 {
    height_m * (length_m * length_m + width_m * width_m).sqrt()
}
