likelihet_layer(book
  HEADERS book.hpp book_error.hpp
  SOURCES book.cpp schema.cpp records_rows.cpp observation_rows.cpp
  PUBLIC_USES colony PRIVATE_USES genetics documents
  PRIVATE_LINKS SQLiteCpp SQLite::SQLite3)
