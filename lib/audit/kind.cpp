// The words for kinds of outcome.
#include <likelihet/audit/kind.hpp>

namespace likelihet::audit {

const char* code_of(Kind kind) {
  switch (kind) {
    case Kind::breeding:
      return "breeding";
    case Kind::visual:
      return "visual";
    case Kind::relatives:
      return "relatives";
    case Kind::test:
      break;
  }
  return "test";
}

}  // namespace likelihet::audit
