likelihet_layer(book WORDS_ONLY
  HEADERS book.hpp book_error.hpp claim.hpp copying.hpp snapshot.hpp
  SOURCES as_it_was.cpp book.cpp book_adding.cpp book_claims.cpp book_state.cpp checking.cpp claim_rows.cpp
          connection.cpp copying.cpp fields.cpp file_kind.cpp learned_rows.cpp ledger_rows.cpp merging.cpp observation_rows.cpp read_only.cpp records_rows.cpp schema.cpp
          schema_version_1.cpp schema_version_2.cpp schema_version_3.cpp settings.cpp
          sqlite_errors.cpp statements.cpp
  PUBLIC_USES colony PRIVATE_USES genetics documents
  PRIVATE_LINKS SQLiteCpp SQLite::SQLite3 Threads::Threads)
