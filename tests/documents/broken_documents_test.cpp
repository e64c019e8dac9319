// Every fault of form in cases/broken_documents.json, with its exact place and words.
#include <documents/samples.hpp>
#include <nlohmann/json.hpp>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/model_document.hpp>

namespace likelihet::documents::broken_documents_test {
namespace {

using OrderedJson = nlohmann::ordered_json;

// A sound document with a change (JSON Patch, RFC 6902), and the faults that it must give. The same
// list is held against the published schemas by schema_test.py.
struct BrokenDocument {
  std::string name;
  std::string text;
  bool is_model = false;
  colony::Faults faults;
};

std::vector<BrokenDocument> broken_documents() {
  std::vector<BrokenDocument> list;
  for (const OrderedJson& entry : OrderedJson::parse(sample("broken_documents.json"))) {
    BrokenDocument broken;
    broken.name = entry.at("name");
    const std::string document = entry.at("document");
    broken.is_model = document == "model";
    broken.text = OrderedJson::parse(sample(document + ".json")).patch(entry.at("change")).dump();
    for (const OrderedJson& fault : entry.at("faults")) {
      broken.faults.push_back({fault.at("place"), fault.at("what"), fault.at("mend")});
    }
    list.push_back(broken);
  }
  return list;
}

TEST(BrokenDocuments, GiveTheirFaultsAndNoOthers) {
  const std::vector<BrokenDocument> list = broken_documents();
  ASSERT_GE(list.size(), 80U);
  for (const BrokenDocument& broken : list) {
    SCOPED_TRACE(broken.name);
    ASSERT_FALSE(broken.faults.empty());
    EXPECT_EQ(
        broken.is_model ? faults_of(read_model(broken.text)) : faults_of(read_colony(broken.text)),
        broken.faults);
  }
}

// RFC 6901 sections 3 to 5: the place of each fault must lead into the document that has it, or
// name the field that is missing there.
TEST(BrokenDocuments, PlacesAreJsonPointersIntoTheDocument) {
  for (const BrokenDocument& broken : broken_documents()) {
    SCOPED_TRACE(broken.name);
    const OrderedJson document = OrderedJson::parse(broken.text);
    for (const colony::Fault& fault : broken.faults) {
      EXPECT_TRUE(document.contains(OrderedJson::json_pointer(fault.place))) << fault.place;
    }
  }
}

}  // namespace
}  // namespace likelihet::documents::broken_documents_test
