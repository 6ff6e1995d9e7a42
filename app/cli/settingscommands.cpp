// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// The house as files, and its tools: what the settings screens change, from the command line.
#include "cli/commandline.h"
#include "domain/housefile.h"
#include "domain/words.h"

#include <QFile>

#include <algorithm>

namespace ramplight::cli {

namespace {

QByteArray shippedBytes()
{
    QFile file(QStringLiteral(":/ramplight/catalogue/operations.json"));
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

int listTools(const SiteState& site, Terminal& terminal)
{
    const QDate today = dayOf(terminal.clock.now(), site.rules);
    for (const auto& [id, tool] : site.tools)
        terminal.out << tool.number << "  " << nameOf(tool.kind) << "  "
                     << tool.nextCalibration.toString(Qt::ISODate)
                     << (!tool.active            ? "  (left)"
                         : !tool.isInDate(today) ? "  (overdue)"
                                                 : "")
                     << Qt::endl;
    return Ok;
}

/// The tool as the arguments change it; null when they say nothing that can be.
tl::expected<Tool, QString> changedTool(const SiteState& site, const QString& what,
                                        const QStringList& arguments)
{
    const auto day = [](const QString& iso) { return QDate::fromString(iso, Qt::ISODate); };
    if (what == QLatin1String("add") && arguments.size() == 3) {
        const auto kind = fromName<ToolKind>(arguments.at(1));
        if (!kind)
            return tl::unexpected(QStringLiteral("%1 is no kind of tool.").arg(arguments.at(1)));
        return Tool{{}, arguments.at(0), *kind, day(arguments.at(2)), true};
    }
    const auto it = std::ranges::find_if(site.tools, [&](const auto& entry) {
        return entry.second.number.compare(arguments.value(0), Qt::CaseInsensitive) == 0;
    });
    if (it == site.tools.end())
        return tl::unexpected(QStringLiteral("There is no tool %1.").arg(arguments.value(0)));
    Tool tool = it->second;
    if (what == QLatin1String("due"))
        tool.nextCalibration = day(arguments.value(1));
    else
        tool.active = what == QLatin1String("back");
    return tool;
}

} // namespace

int tool(const QStringList& given, Terminal& terminal)
{
    const Command& self = *find(QStringLiteral("tool"));
    QStringList arguments = given;
    const QString asName = takeOption(arguments, QStringLiteral("--as"));
    const QString what = arguments.isEmpty() ? QString() : arguments.takeFirst();
    const qsizetype wanted = what == QLatin1String("list")                                     ? 0
                             : what == QLatin1String("add")                                    ? 3
                             : what == QLatin1String("due")                                    ? 2
                             : what == QLatin1String("leave") || what == QLatin1String("back") ? 1
                                                                                               : -1;
    if (arguments.size() != wanted)
        return usage(terminal, self);
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    const auto site = house->store().ledger().site();
    if (!site)
        return failed(terminal, site.error().words, Unavailable);
    if (what == QLatin1String("list"))
        return listTools(*site, terminal);
    const auto by = actor(*site, asName, Right::Manage);
    if (!by)
        return failed(terminal, by.error(), NoPermission);
    const auto changed = changedTool(*site, what, arguments);
    if (!changed)
        return failed(terminal, changed.error(), BadData);
    const auto set =
        house->workshop().run(SiteRequest{freshCommand(), *by, site::SetTool{*changed}, {}});
    return set ? Ok : failed(terminal, words(set.error()), BadData);
}

int houseFile(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const QString asName = takeOption(arguments, QStringLiteral("--as"));
    const QString what = arguments.value(0);
    if (arguments.size() != 2 ||
        (what != QLatin1String("export") && what != QLatin1String("import")))
        return usage(terminal, *find(QStringLiteral("house")));
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    const auto site = house->store().ledger().site();
    if (!site)
        return failed(terminal, site.error().words, Unavailable);
    if (what == QLatin1String("export"))
        return writeWhole(arguments.at(1), writeHouse(*site), terminal, NoInput);
    const auto by = actor(*site, asName, Right::Manage);
    if (!by)
        return failed(terminal, by.error(), NoPermission);
    const auto bytes = readFile(arguments.at(1));
    if (!bytes)
        return failed(terminal, bytes.error(), NoInput);
    const auto file = readHouse(*bytes, *site);
    if (!file)
        return failed(terminal, file.error().join(QLatin1Char('\n')), BadData);
    if (const auto taken = takeHouse(house->workshop(), *by, freshCommand(), *file); !taken)
        return failed(terminal, words(taken.error()), BadData);
    return Ok;
}

int catalogueFile(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const QString asName = takeOption(arguments, QStringLiteral("--as"));
    const bool shipped = takeFlag(arguments, QStringLiteral("--shipped"));
    const QString what = arguments.value(0);
    const bool import = what == QLatin1String("import");
    if (arguments.size() != (import && shipped ? 1 : 2))
        return usage(terminal, *find(QStringLiteral("catalogue")));
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    const auto site = house->store().ledger().site();
    if (!site)
        return failed(terminal, site.error().words, Unavailable);
    if (!import)
        return writeWhole(arguments.at(1),
                          site->adopted.catalogue ? writeCatalogue(*site->adopted.catalogue)
                                                  : shippedBytes(),
                          terminal);
    const auto by = actor(*site, asName, Right::Manage);
    if (!by)
        return failed(terminal, by.error(), NoPermission);
    site::AdoptCatalogue adopt;
    if (!shipped) {
        const auto bytes = readFile(arguments.at(1));
        if (!bytes)
            return failed(terminal, bytes.error(), NoInput);
        if (bytes->isEmpty())
            return failed(terminal, QStringLiteral("%1 is empty.").arg(arguments.at(1)), BadData);
        adopt.json = *bytes;
    }
    const auto set = house->workshop().run(SiteRequest{freshCommand(), *by, adopt, {}});
    return set ? Ok : failed(terminal, words(set.error()), BadData);
}

} // namespace ramplight::cli
