// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/readtables.h"
#include "storage/verifier.h"

namespace ramplight {

tl::expected<void, StoreError> rebuildCar(SqlLedger& ledger, Writer& writer, const SiteView& site,
                                          const CarId& id)
{
    const auto history = ledger.history(id);
    if (!history)
        return tl::unexpected(history.error());
    CarState car;
    car.id = id;
    for (const CarEnvelope& envelope : *history)
        apply(car, envelope);
    for (const PhotoId& photo : keptPhotosOf(car))
        writePhoto(writer, ledger.siteId(), id.text, photo);
    writeCar(writer, ledger.siteId(), carRowOf(car, site.state.rules, site.rulesSeq));
    for (const SegmentRow& row : segmentRowsOf(car))
        writeSegment(writer, ledger.siteId(), id.text, row);
    return {};
}

tl::expected<int, StoreError> rebuildReadTables(SqlLedger& ledger)
{
    Connection& connection = ledger.connection();
    ledger.forget();
    auto transaction = Transaction::write(connection, ledger.siteId());
    if (!transaction)
        return tl::unexpected(storeError(transaction.error()));
    const auto site = ledger.siteView();
    if (!site)
        return tl::unexpected(site.error());
    const auto streams = streamsOf(connection, ledger.siteId());
    if (!streams)
        return tl::unexpected(storeError(streams.error()));
    Writer writer(connection);
    clearReadTables(writer, ledger.siteId());
    int cars = 0;
    for (const QString& stream : *streams) {
        const CarId car = carOfStream(stream);
        if (car.isEmpty())
            continue;
        if (auto done = rebuildCar(ledger, writer, *site, car); !done)
            return tl::unexpected(done.error());
        ++cars;
    }
    if (!writer.good())
        return tl::unexpected(storeError(writer.fault()));
    if (auto committed = transaction->commit(); !committed)
        return tl::unexpected(storeError(committed.error()));
    return cars;
}

} // namespace ramplight
