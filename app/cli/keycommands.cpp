// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/houselock.h"
#include "backup/keycopynote.h"
#include "cli/commandline.h"
#include "evidence/durablefile.h"
#include "storage/sitekeycheck.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <unistd.h>

#include <cstdio>

namespace ramplight::cli {

namespace {

QString nameIn(const QString& place)
{
    return QFileInfo(place).isDir() ? QDir(place).filePath(QStringLiteral("site.keys")) : place;
}

/// How the keys stand to the workshop, in words; why nobody can say.
tl::expected<KeyFit, QString> fitOf(const SiteKeys& keys, const HousePaths& paths,
                                    const StoreSettings& store)
{
    if (store.kind == StoreKind::Sqlite && !QFileInfo::exists(paths.database()))
        return KeyFit::Nothing;
    HeadKeeper keeper;
    keeper.keyId = keys.id();
    for (const SiteKeys::Past& past : keys.past())
        keeper.past.push_back({past.id, [&keys, id = past.id](const QByteArray& bytes) {
                                   return keys.pastDigest(id, bytes);
                               }});
    keeper.digest = [&keys](const QByteArray& bytes) { return keys.keyedDigest(bytes); };
    StoreSettings asked = store;
    asked.patience = kioskPatience;
    const auto fit = keyFit(asked, keeper);
    if (!fit)
        return tl::unexpected(fit.error().words);
    return *fit;
}

/// It lies in two places. That the kiosk does not know it is no reason to take it back.
void remember(const QString& keyId, Terminal& terminal)
{
    if (const auto noted = noteKeyCopy(terminal.paths.keyCopyNote(), {keyId, terminal.clock.now()});
        !noted)
        terminal.err << "The kiosk's settings will not say that there is a copy: " << noted.error()
                     << Qt::endl;
}

int show(const HouseSettings& settings, Terminal& terminal)
{
    const QString path = terminal.paths.keys();
    const auto keys = SiteKeyFile(path).read();
    if (!keys)
        return failed(terminal, words(keys.error()) + QLatin1Char(' ') + path, NoInput);
    terminal.out << "Key " << keys->id() << ", in " << path << Qt::endl;
    if (!keys->past().empty())
        terminal.out << "It was renewed "
                     << (keys->past().size() == 1
                             ? QStringLiteral("once")
                             : QStringLiteral("%1 times").arg(keys->past().size()))
                     << "; what earlier keys sealed can still be checked." << Qt::endl;
    const auto fit = fitOf(*keys, terminal.paths, settings.store);
    if (!fit)
        return failed(terminal, fit.error(), Unavailable);
    if (*fit == KeyFit::Other)
        return failed(terminal,
                      QStringLiteral("It is not the key of this workshop: it is another site's, or "
                                     "the keys were renewed since."),
                      Different);
    terminal.out << (*fit == KeyFit::Fits ? "It is the key of this workshop."
                                          : "Nothing was sealed with a key here yet.")
                 << Qt::endl;
    return Ok;
}

int copy(const QString& place, Terminal& terminal)
{
    const QString path = terminal.paths.keys();
    const QString to = nameIn(place);
    const auto keys = SiteKeyFile(path).read();
    if (!keys)
        return failed(terminal, words(keys.error()) + QLatin1Char(' ') + path, NoInput);
    if (const auto written = SiteKeyFile(to).writeOnStick(*keys); !written)
        return failed(terminal, words(written.error()) + QLatin1Char(' ') + to, Unavailable);
    // Read again: a stick that says yes and keeps nothing is found out now.
    const auto again = SiteKeyFile(to).readFromStick();
    if (!again || again->id() != keys->id()) {
        // Nobody is to take it for a copy.
        QFile::remove(to);
        return failed(terminal,
                      QStringLiteral("%1 cannot be read back. Try another stick.").arg(to),
                      Unavailable);
    }
    remember(keys->id(), terminal);
    terminal.out << "Key " << keys->id() << " is in " << to
                 << " now. Whoever has it and the database can try every PIN: keep it apart from "
                    "the backups, and remove it from a stick that goes elsewhere."
                 << Qt::endl;
    return Ok;
}

/// These keys in the place of those that may be there, which get the other name. At no time are
/// there none.
tl::expected<void, AccessError> exchange(const QString& path, const QString& aside,
                                         const SiteKeys& keys)
{
    const auto failed = tl::unexpected(AccessError::KeyFileNoWriting);
    const QString taken = path + QStringLiteral(".taken");
    QFile::remove(taken);
    if (auto written = SiteKeyFile(taken).write(keys); !written)
        return written;
    const bool wasThere = QFileInfo::exists(path);
    const auto name = [](const QString& file) { return QFile::encodeName(file); };
    if ((wasThere && ::link(name(path).constData(), name(aside).constData()) != 0 &&
         !QFile::copy(path, aside)) ||
        std::rename(name(taken).constData(), name(path).constData()) != 0) {
        QFile::remove(taken);
        if (wasThere)
            QFile::remove(aside);
        return failed;
    }
    if (!bringToDisk(QFileInfo(path).absolutePath()))
        return failed;
    return {};
}

int take(const QString& place, const HouseSettings& settings, Terminal& terminal)
{
    const QString path = terminal.paths.keys();
    const QString from = nameIn(place);
    const auto keys = SiteKeyFile(from).readFromStick();
    if (!keys)
        return failed(terminal, words(keys.error()) + QLatin1Char(' ') + from, NoInput);
    const auto fit = fitOf(*keys, terminal.paths, settings.store);
    if (!fit)
        return failed(terminal, fit.error(), Unavailable);
    if (*fit != KeyFit::Fits)
        return failed(terminal,
                      *fit == KeyFit::Other
                          ? QStringLiteral("The key %1 in %2 is not that of this workshop: it is "
                                           "another site's, or the keys were renewed since. "
                                           "Nothing was changed.")
                                .arg(keys->id(), from)
                          : QStringLiteral("There is no workshop here, or on the server that the "
                                           "settings name, that a key could belong to. Nothing "
                                           "was changed."),
                      BadData);
    if (auto made = terminal.paths.make(); !made)
        return failed(terminal, made.error(), Unavailable);
    const auto alone = HouseLock::alone(terminal.paths.root());
    if (!alone)
        return failed(terminal, alone.error(), Unavailable);
    if (const auto there = SiteKeyFile(path).read();
        there && there->id() == keys->id() && there->past().size() == keys->past().size()) {
        remember(keys->id(), terminal);
        terminal.out << "Key " << keys->id() << " is here already." << Qt::endl;
        return Ok;
    }
    const QString aside = asideName(path, QStringLiteral("replaced"), terminal.clock.now());
    const auto exchanged = exchange(path, aside, *keys);
    if (!exchanged)
        return failed(terminal, words(exchanged.error()) + QLatin1Char(' ') + path, Unavailable);
    remember(keys->id(), terminal);
    if (QFileInfo::exists(aside))
        terminal.out << "The file that was here is now " << aside << Qt::endl;
    terminal.out << "Key " << keys->id() << " is in " << path
                 << " now. It is the key of this workshop." << Qt::endl;
    return Ok;
}

/// The site's and everybody's: names whom the new PIN is for. Error: an exit code, it was said.
tl::expected<QString, int> renewed(const QString& asName, const HouseSettings& settings,
                                   Terminal& terminal)
{
    const HousePaths& paths = terminal.paths;
    const auto say = [&](const QString& words) {
        return tl::unexpected<int>(failed(terminal, words, Unavailable));
    };
    if (settings.store.kind == StoreKind::Sqlite && !QFileInfo::exists(paths.database()))
        return say(QStringLiteral("There is no workshop in %1.").arg(paths.root()));
    const auto alone = HouseLock::alone(paths.root());
    if (!alone)
        return say(alone.error());
    auto keys = openKeys(paths, settings.store);
    if (!keys)
        return say(keys.error());
    if (keys->past().size() >= SiteKeys::mostPast)
        return say(QStringLiteral("These keys were renewed %1 times; there is no room for more.")
                       .arg(SiteKeys::mostPast));
    SiteKeys fresh = keys->renewed();
    const QString freshId = fresh.id();
    const auto oldKeys = std::make_shared<const SiteKeys>(std::move(*keys));
    QString name;
    {
        const auto store = Store::open(settings.store, headKeeper(paths, oldKeys));
        if (!store)
            return say(store.error().words);
        const auto site = (*store)->ledger().site();
        if (!site)
            return say(site.error().words);
        const auto by = actor(*site, asName, Right::Manage);
        if (!by)
            return tl::unexpected<int>(failed(terminal, by.error(), NoPermission));
        name = site->people.at(*by).name;
        // The file first: what the database says from then on can be opened whatever happens.
        QFile::remove(paths.freshKeys());
        if (const auto written = SiteKeyFile(paths.freshKeys()).write(fresh); !written)
            return say(words(written.error()) + QLatin1Char(' ') + paths.freshKeys());
        const HeadKeeper keeper =
            headKeeper(paths, std::make_shared<const SiteKeys>(std::move(fresh)));
        Connection& connection = (*store)->ledger().connection();
        // Whether it came about is not always known then: the next start looks, and needs the file.
        if (const auto done = renewKeys(connection, (*store)->ledger().siteId(), keeper); !done)
            return say(done.error().words);
    }
    if (auto taken = takeFreshKeys(paths); !taken)
        return say(taken.error());
    terminal.out << "The workshop seals with key " << freshId << " now, in " << paths.keys()
                 << "; what the earlier one sealed can still be checked.\n"
                    "Nobody has a PIN any more: a manager sets them anew under Staff and bays.\n"
                    "Every other kiosk of this workshop stops writing to the ledger until it has "
                    "this file (ramplight key copy, ramplight key take) and was started again. Put "
                    "a copy where the old one was kept; backups from before want this file, too."
                 << Qt::endl;
    return name;
}

} // namespace

int key(const QStringList& given, Terminal& terminal)
{
    const Command& self = *find(QStringLiteral("key"));
    QStringList arguments = given;
    const QString asName = takeOption(arguments, QStringLiteral("--as"));
    const QString what = arguments.isEmpty() ? QString() : arguments.takeFirst();
    const auto settings = HouseSettings::read(terminal.paths);
    if (!settings)
        return failed(terminal, settings.error(), Unavailable);
    if (what == QLatin1String("show") && arguments.isEmpty())
        return show(*settings, terminal);
    if (what == QLatin1String("copy") && arguments.size() == 1)
        return copy(arguments.front(), terminal);
    if (what == QLatin1String("take") && arguments.size() == 1)
        return take(arguments.front(), *settings, terminal);
    if (what != QLatin1String("renew") || !arguments.isEmpty())
        return usage(terminal, self);
    const auto name = renewed(asName, *settings, terminal);
    if (!name)
        return name.error();
    terminal.out << "Now the PIN of " << *name << " (later: ramplight staff pin NAME)." << Qt::endl;
    return staff({QStringLiteral("pin"), *name, QStringLiteral("--as"), *name}, terminal);
}

} // namespace ramplight::cli
