likelihet_layer(documents WORDS_ONLY
  HEADERS model_document.hpp colony_document.hpp csv_table.hpp csv_records.hpp digest.hpp
          policy_document.hpp digest_part.hpp evidence_digest.hpp number_bytes.hpp
  SOURCES json_text.cpp object_reader.cpp
          model_document.cpp model_writing.cpp colony_document.cpp colony_writing.cpp
          csv_table.cpp csv_records.cpp csv_cells.cpp csv_sires.cpp csv_writing.cpp digest.cpp
          policy_document.cpp evidence_digest.cpp number_bytes.cpp
  PUBLIC_USES colony PRIVATE_USES genetics
  PRIVATE_LINKS nlohmann_json::nlohmann_json OpenSSL::Crypto $<BUILD_INTERFACE:Boost::headers>)
