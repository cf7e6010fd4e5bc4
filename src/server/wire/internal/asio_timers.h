#pragma once
// Before all else of Asio, by the compiler's command line: timers by the timeout of epoll instead
// of by a timerfd. At a faked hour (tools/at_hour) a timerfd that has run out already would never
// ring, and no test of the server would end.
#include <boost/asio/detail/config.hpp>
#undef BOOST_ASIO_HAS_TIMERFD
