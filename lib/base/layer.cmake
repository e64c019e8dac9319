likelihet_layer(base WORDS_ONLY
  HEADERS utf8.hpp shortest.hpp hexadecimal.hpp log_odds.hpp
  SOURCES utf8.cpp shortest.cpp hexadecimal.cpp)
