// The one door to the test framework.
#pragma once

#include <catch2/catch.hpp>
