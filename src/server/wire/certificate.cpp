#include "server/wire/certificate.h"

#include <fmt/format.h>
#include <openssl/bio.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <openssl/x509.h>
#include <openssl/x509v3.h>

#include <algorithm>
#include <array>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <memory>
#include <sstream>

#include "base/require.h"
#include "server/wire/internal/private_file.h"

namespace barm::server {

namespace {

constexpr long day_s = 86400;
constexpr long authority_days = 3650;
constexpr long server_days = 397;  // browsers refuse what lasts longer
constexpr long renew_days = 30;

using Key = std::unique_ptr<EVP_PKEY, decltype(&EVP_PKEY_free)>;
using SslCertificate = std::unique_ptr<X509, decltype(&X509_free)>;
using Memory = std::unique_ptr<BIO, decltype(&BIO_free)>;

Memory memory() { return {BIO_new(BIO_s_mem()), BIO_free}; }

Memory memory(const std::string& text) {
  return {BIO_new_mem_buf(text.data(), static_cast<int>(text.size())), BIO_free};
}

std::string text_of(const Memory& bio) {
  char* data = nullptr;
  const long size = BIO_get_mem_data(bio.get(), &data);
  return {data, static_cast<std::size_t>(size)};
}

void must(bool done, const char* what) { require(done, what); }

Key new_key() {
  Key key(EVP_EC_gen("P-256"), EVP_PKEY_free);
  must(key != nullptr, "OpenSSL makes a key");
  return key;
}

std::string pem(EVP_PKEY* key) {
  const Memory out = memory();
  must(PEM_write_bio_PrivateKey(out.get(), key, nullptr, nullptr, 0, nullptr, nullptr) == 1,
       "OpenSSL writes a key");
  return text_of(out);
}

std::string pem(X509* paper) {
  const Memory out = memory();
  must(PEM_write_bio_X509(out.get(), paper) == 1, "OpenSSL writes a certificate");
  return text_of(out);
}

void extend(X509* paper, X509* signer, int what, const std::string& value) {
  X509V3_CTX context;
  X509V3_set_ctx_nodb(&context);
  X509V3_set_ctx(&context, signer, paper, nullptr, nullptr, 0);
  const std::unique_ptr<X509_EXTENSION, decltype(&X509_EXTENSION_free)> extension(
      X509V3_EXT_conf_nid(nullptr, &context, what, value.c_str()), X509_EXTENSION_free);
  must(extension != nullptr, "OpenSSL knows the extension");
  must(X509_add_ext(paper, extension.get(), -1) == 1, "OpenSSL adds the extension");
}

SslCertificate blank(EVP_PKEY* key, const std::string& name, long days) {
  SslCertificate paper(X509_new(), X509_free);
  must(paper != nullptr, "OpenSSL makes a certificate");
  X509_set_version(paper.get(), X509_VERSION_3);
  std::array<unsigned char, 16> serial{};
  must(RAND_bytes(serial.data(), static_cast<int>(serial.size())) == 1,
       "the machine has random numbers");
  serial[0] &= 0x7FU;  // positive
  const std::unique_ptr<BIGNUM, decltype(&BN_free)> number(
      BN_bin2bn(serial.data(), static_cast<int>(serial.size()), nullptr), BN_free);
  BN_to_ASN1_INTEGER(number.get(), X509_get_serialNumber(paper.get()));
  X509_gmtime_adj(X509_getm_notBefore(paper.get()), -day_s);
  X509_gmtime_adj(X509_getm_notAfter(paper.get()), days * day_s);
  X509_set_pubkey(paper.get(), key);
  X509_NAME_add_entry_by_txt(X509_get_subject_name(paper.get()),
                             "CN",
                             MBSTRING_UTF8,
                             reinterpret_cast<const unsigned char*>(name.c_str()),
                             -1,
                             -1,
                             0);
  return paper;
}

bool is_address(const std::string& name) {
  return !name.empty() && name.find_first_not_of("0123456789.") == std::string::npos;
}

bool is_local_name(const std::string& name) {
  return name == "localhost" || name.find('.') == std::string::npos || name.ends_with(".local");
}

std::string alternatives(const std::vector<std::string>& names) {
  std::string out;
  for (const std::string& name : names)
    out += (out.empty() ? "" : ",") + std::string(is_address(name) ? "IP:" : "DNS:") + name;
  return out;
}

bool is_private_address(const std::string& address) {
  if (address.starts_with("172.")) {
    const std::string second = address.substr(4, address.find('.', 4) - 4);
    return second.size() == 2 && second >= "16" && second <= "31";
  }
  return address.starts_with("10.") || address.starts_with("192.168.") ||
         address.starts_with("169.254.");
}

// The house's own names, and the networks it is in: a router gives another address of the same
// network tomorrow. Both kinds are always named, for a kind that is not would be without limits.
std::string limits(const std::vector<std::string>& names) {
  std::string out = "critical,permitted;DNS:localhost,permitted;IP:127.0.0.1/255.255.255.255";
  for (const std::string& name : names) {
    if (name == "localhost" || name == "127.0.0.1") continue;
    if (!is_address(name)) {
      out += ",permitted;DNS:" + name;
    } else if (is_private_address(name)) {
      out += ",permitted;IP:" + name.substr(0, name.rfind('.')) + ".0/255.255.255.0";
    } else {
      out += ",permitted;IP:" + name + "/255.255.255.255";
    }
  }
  return out;
}

struct Pair {
  SslCertificate paper{nullptr, X509_free};
  Key key{nullptr, EVP_PKEY_free};

  [[nodiscard]] bool there() const { return paper != nullptr && key != nullptr; }
};

Pair make_authority(const std::vector<std::string>& names) {
  Pair made;
  made.key = new_key();
  const std::string of = names.empty() ? "this machine" : names.back();
  made.paper = blank(made.key.get(), "Barmwright of " + of, authority_days);
  X509* paper = made.paper.get();
  X509_set_issuer_name(paper, X509_get_subject_name(paper));
  extend(paper, paper, NID_basic_constraints, "critical,CA:TRUE,pathlen:0");
  extend(paper, paper, NID_key_usage, "critical,keyCertSign,cRLSign");
  extend(paper, paper, NID_ext_key_usage, "serverAuth");
  extend(paper, paper, NID_subject_key_identifier, "hash");
  extend(paper, paper, NID_name_constraints, limits(names));
  must(X509_sign(paper, made.key.get(), EVP_sha256()) > 0, "OpenSSL signs");
  return made;
}

Pair make_server(const Pair& authority, const std::vector<std::string>& names) {
  Pair made;
  made.key = new_key();
  made.paper = blank(made.key.get(), names.front(), server_days);
  X509* paper = made.paper.get();
  X509_set_issuer_name(paper, X509_get_subject_name(authority.paper.get()));
  extend(paper, authority.paper.get(), NID_basic_constraints, "critical,CA:FALSE");
  extend(paper, authority.paper.get(), NID_key_usage, "critical,digitalSignature");
  extend(paper, authority.paper.get(), NID_ext_key_usage, "serverAuth");
  extend(paper, authority.paper.get(), NID_subject_alt_name, alternatives(names));
  extend(paper, authority.paper.get(), NID_authority_key_identifier, "keyid");
  must(X509_sign(paper, authority.key.get(), EVP_sha256()) > 0, "OpenSSL signs");
  return made;
}

std::string read(const std::string& path) {
  const std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

// What is there and belongs together; else nothing.
Pair load(const std::string& paper_file, const std::string& key_file) {
  Pair pair;
  const std::string paper = read(paper_file);
  const std::string key = read(key_file);
  pair.paper.reset(PEM_read_bio_X509(memory(paper).get(), nullptr, nullptr, nullptr));
  pair.key.reset(PEM_read_bio_PrivateKey(memory(key).get(), nullptr, nullptr, nullptr));
  if (pair.there() && X509_check_private_key(pair.paper.get(), pair.key.get()) == 1) return pair;
  return {};
}

bool lasts(X509* paper, long days) {
  std::time_t then = std::time(nullptr) + days * day_s;
  return X509_cmp_time(X509_get0_notAfter(paper), &then) > 0;
}

bool names_all(X509* paper, const std::vector<std::string>& names) {
  return std::all_of(names.begin(), names.end(), [&](const std::string& name) {
    return is_address(name) ? X509_check_ip_asc(paper, name.c_str(), 0) == 1
                            : X509_check_host(paper, name.c_str(), name.size(), 0, nullptr) == 1;
  });
}

// Authorities of earlier versions could sign for any private address, and for more than servers.
bool is_narrow(X509* authority) {
  return X509_get_ext_by_NID(authority, NID_ext_key_usage, -1) >= 0;
}

// As a browser that trusts the authority would judge, its limits included.
bool is_trusted(X509* paper, X509* authority) {
  const std::unique_ptr<X509_STORE, decltype(&X509_STORE_free)> store(X509_STORE_new(),
                                                                      X509_STORE_free);
  const std::unique_ptr<X509_STORE_CTX, decltype(&X509_STORE_CTX_free)> check(X509_STORE_CTX_new(),
                                                                              X509_STORE_CTX_free);
  must(store != nullptr && check != nullptr, "OpenSSL makes a store");
  X509_STORE_add_cert(store.get(), authority);
  X509_STORE_CTX_init(check.get(), store.get(), paper, nullptr);
  return X509_verify_cert(check.get()) == 1;
}

std::string fingerprint(X509* paper) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> bytes{};
  unsigned count = 0;
  must(X509_digest(paper, EVP_sha256(), bytes.data(), &count) == 1, "OpenSSL makes a digest");
  std::string out;
  for (unsigned i = 0; i < count; ++i)
    out += fmt::format("{}{:02X}", i == 0 ? "" : ":", bytes.at(i));
  return out;
}

void keep(const Pair& pair,
          const std::string& paper_file,
          const std::string& key_file,
          const std::string& after = "") {
  internal::write_private(key_file, pem(pair.key.get()));
  internal::write_private(paper_file, pem(pair.paper.get()) + after);
}

}  // namespace

Result<Certificate> certificate(const std::string& folder, const std::vector<std::string>& all) {
  std::vector<std::string> names;
  for (const std::string& name : all) {
    if (is_address(name) || is_local_name(name)) names.push_back(name);
  }
  require(!names.empty(), "a server has a name");
  Certificate out{
      folder + "/authority.pem", folder + "/server.pem", folder + "/server.key", "", ""};
  const std::string authority_key = folder + "/authority.key";
  try {
    internal::make_private_folder(folder);
    Pair authority = load(out.authority, authority_key);
    Pair server = load(out.chain, out.private_key);
    const bool good = authority.there() && server.there() && is_narrow(authority.paper.get()) &&
                      lasts(server.paper.get(), renew_days) &&
                      names_all(server.paper.get(), names) &&
                      is_trusted(server.paper.get(), authority.paper.get());
    if (!good) {
      const bool keeps = authority.there() && is_narrow(authority.paper.get()) &&
                         lasts(authority.paper.get(), server_days);
      if (keeps) server = make_server(authority, names);
      if (!keeps || !is_trusted(server.paper.get(), authority.paper.get())) {
        authority = make_authority(names);
        keep(authority, out.authority, authority_key);
        server = make_server(authority, names);
      }
      keep(server, out.chain, out.private_key, pem(authority.paper.get()));
    }
    out.fingerprint = fingerprint(server.paper.get());
    out.authority_fingerprint = fingerprint(authority.paper.get());
  } catch (const std::filesystem::filesystem_error& error) {
    return failure(ErrorCode::bad_input,
                   folder,
                   fmt::format("the certificate cannot be kept there: {}", error.code().message()));
  }
  return out;
}

}  // namespace barm::server
