// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"

#include <QCoreApplication>

#include <cstdio>
#include <map>
#include <string>

namespace ramplight::test {

namespace {

std::map<std::string, TestEntry::Run>& entries()
{
    static std::map<std::string, TestEntry::Run> all;
    return all;
}

std::string stemOf(std::string file)
{
    file.erase(0, file.find_last_of('/') + 1);
    return file.substr(0, file.find('.'));
}

} // namespace

TestEntry::TestEntry(const char* file, Run run)
{
    entries().emplace(stemOf(file), run);
}

} // namespace ramplight::test

int main(int argc, char** argv)
{
    const auto& entries = ramplight::test::entries();
    const auto wanted = argc > 1 ? entries.find(argv[1]) : entries.end();
    if (wanted == entries.end()) {
        for (const auto& [name, run] : entries)
            std::puts(name.c_str());
        return 64;
    }
    // Everything after the name is the test's; it is the program's name, too, so that tests beside
    // each other do not share what goes by that.
    QCoreApplication::setAttribute(Qt::AA_Use96Dpi);
    return wanted->second(argc - 1, argv + 1);
}
