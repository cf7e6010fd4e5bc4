#pragma once
// TLS for the bakery's own network: a certificate of the machine's own, made once and kept beside
// the daybook.
#include <string>
#include <vector>

#include "base/result.h"

namespace barm::server {

/// Where the parts of the certificate stand, and what to compare with the browser's warning.
struct Certificate {
  std::string authority;    ///< PEM file that signs; a phone that installs it trusts the server
  std::string chain;        ///< PEM file of the server's own, signed by it
  std::string private_key;  ///< PEM file
  std::string fingerprint;  ///< SHA-256 of the server's own, "A1:B2:…"
  std::string authority_fingerprint;  ///< and of the one that signs
};

/// The certificate in `folder` (made with 0700, its files with 0600) for the names and addresses.
/// Made anew when there is none, when it ends within 30 days, or when a name is not in it; the
/// signing one stays, so that phones need not install it again. It may sign for these names only,
/// and for addresses of the house's networks: the 256 around each private address given, a public
/// one alone. In another network it is made anew too. Errors: bad_input when the folder cannot be
/// written or holds something else.
[[nodiscard]] Result<Certificate> certificate(const std::string& folder,
                                              const std::vector<std::string>& names);

}  // namespace barm::server
