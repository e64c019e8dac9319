likelihet_layer(audit
  HEADERS interval.hpp proportion.hpp two_by_two.hpp verification.hpp agreement.hpp score.hpp
          calibration.hpp reliability.hpp isotonic.hpp roc.hpp net_benefit.hpp strata.hpp
          multiplicity.hpp bootstrap.hpp
  SOURCES distributions.cpp proportion.cpp two_by_two.cpp verification.cpp agreement.cpp
          agreement_many.cpp score.cpp calibration.cpp reliability.cpp isotonic.cpp roc.cpp
          delong.cpp net_benefit.cpp strata.cpp multiplicity.cpp bootstrap.cpp
  PUBLIC_USES colony odds learning
  PRIVATE_LINKS $<BUILD_INTERFACE:Eigen3::Eigen> $<BUILD_INTERFACE:Boost::headers>)
