likelihet_layer(documents
  HEADERS model_document.hpp colony_document.hpp csv_table.hpp csv_records.hpp
  SOURCES model_document.cpp colony_document.cpp csv_table.cpp csv_records.cpp
  PUBLIC_USES colony PRIVATE_USES genetics
  PRIVATE_LINKS nlohmann_json::nlohmann_json)
