//! Where a plan contradicts itself.

use crate::words::plan_errors::PlanErrors;

pub(super) const PLAN_ERRORS: PlanErrors = PlanErrors {
    plan: "plan",
    cap_rules: "reglas de tope",
    section: "sección",
    part: "pieza",
    place: "lugar",
    characteristic: "característica",
    location_factor: "factor de lugar",
    cap_rule: "regla de tope",
    criterion: "criterio",
    scale: "escala",
    at: "{place}: {why}",
    out_of_range: "{what} es {given}; se admite de {low} a {high}",
    no_weight: "todos los pesos son 0, así que no se podría puntuar nada",
    empty: "no contiene nada",
    twice: "`{id}` está dos veces",
    no_scale: "el plan no tiene la escala `{scale}`",
    repeatability: "una repetibilidad en `{unit}` no encaja con una escala de tipo `{method}`",
    cap_node: "el plan no tiene la sección o pieza `{node}`",
    cap_trigger: "lo que mira en `{within}` no se evalúa como pide su condición",
    slash: "`{id}` tiene una `/`, que separa una sección de su pieza",
    anchor: "el ancla {anchor} debe estar entre el límite {limit} y el crédito máximo {best}",
    too_large: "el plan pide {given} evaluaciones; se admiten {most} como máximo",
    grade_rises: "la tabla de grados sube de {from} a {to}; un grado peor no puede puntuar más",
    out_of_order: "el punto {x} va después de {before}; los puntos deben subir",
    too_short: "la tabla tiene {given} {given?fila:filas}; se admiten {least} o más",
    start: "los puntos empiezan en {first}; deben empezar en 0",
    named_clean: "un nivel se llama `{clean}`; ese nombre se reserva para el resto del área",
    no_allowance: "el límite es igual a la medida de nuevo, {given}; no queda margen de desgaste",
};
