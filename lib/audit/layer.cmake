likelihet_layer(audit
  HEADERS interval.hpp proportion.hpp two_by_two.hpp verification.hpp agreement.hpp score.hpp
          calibration.hpp reliability.hpp isotonic.hpp roc.hpp net_benefit.hpp strata.hpp
          multiplicity.hpp bootstrap.hpp
          kind.hpp forecast.hpp markerless.hpp truths.hpp learned_mode.hpp learned_draws.hpp as_it_stood.hpp
          clutch_left_out.hpp forecasts.hpp level_mixture.hpp homogeneity.hpp stratified_test.hpp cluster_sample.hpp
          marker_readings.hpp marker_subjects.hpp marker_audit.hpp marker_groups.hpp verdict.hpp
          score_table.hpp curves.hpp claims.hpp scorers.hpp selection.hpp flow.hpp warnings.hpp repeats.hpp audit.hpp
  SOURCES distributions.cpp proportion.cpp two_by_two.cpp verification.cpp agreement.cpp
          agreement_many.cpp score.cpp calibration.cpp reliability.cpp isotonic.cpp roc.cpp
          delong.cpp net_benefit.cpp strata.cpp multiplicity.cpp bootstrap.cpp
          kind.cpp markerless.cpp truths.cpp learned_mode.cpp learned_draws.cpp as_it_stood.cpp
          clutch_left_out.cpp forecasts.cpp level_mixture.cpp homogeneity.cpp stratified_test.cpp cluster_sample.cpp
          marker_readings.cpp marker_subjects.cpp marker_audit.cpp marker_groups.cpp verdict.cpp
          score_table.cpp curves.cpp claims.cpp scorers.cpp selection.cpp flow.cpp warnings.cpp repeats.cpp audit.cpp
  PUBLIC_USES colony odds learning inference genetics
  PRIVATE_LINKS $<BUILD_INTERFACE:Eigen3::Eigen> $<BUILD_INTERFACE:Boost::headers> fmt::fmt)
