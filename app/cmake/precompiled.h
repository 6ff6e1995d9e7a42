// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// What nearly every unit of the project includes, compiled once for all layers and tests. QtCore,
// the standard library and the domain only: headers of other modules change with the modules that a
// target links, and the compiler would refuse the shared file. No unit may rely on it: each still
// includes what it uses, and the lint build, which has no precompiled header, checks that.
#pragma once

#include <QAbstractListModel>
#include <QBitArray>
#include <QByteArray>
#include <QCborArray>
#include <QCborMap>
#include <QCborValue>
#include <QCoreApplication>
#include <QDateTime>
#include <QHash>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QList>
#include <QMap>
#include <QMetaEnum>
#include <QObject>
#include <QPoint>
#include <QRect>
#include <QSet>
#include <QSharedPointer>
#include <QSize>
#include <QString>
#include <QStringList>
#include <QTemporaryDir>
#include <QThread>
#include <QUrl>
#include <QUuid>
#include <QVariant>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <variant>
#include <vector>

#include <tl/expected.hpp>

// A change here builds everything again, which a change of these mostly does anyway.
#include "domain/holds.h"
#include "domain/words.h"
#include "domain/workshop.h"
