// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/oneof.h"

#include "domain/carcommands.h"
#include "domain/carevents.h"
#include "domain/sitecommands.h"
#include "domain/siteevents.h"

#include <tuple>

namespace ramplight {

template <class V>
OneOf<V>::OneOf() = default;
template <class V>
OneOf<V>::OneOf(const OneOf& other) = default;
template <class V>
OneOf<V>::OneOf(OneOf&& other) noexcept = default;
template <class V>
OneOf<V>& OneOf<V>::operator=(const OneOf& other) = default;
template <class V>
OneOf<V>& OneOf<V>::operator=(OneOf&& other) noexcept = default;
template <class V>
OneOf<V>::~OneOf() = default;
template <class V>
bool OneOf<V>::operator==(const OneOf& other) const requires(KindsOf<V>::areComparable)
{
    return static_cast<const V&>(*this) == static_cast<const V&>(other);
}

template <class V>
template <class T>
void OneOf<V>::hold(T&& value)
{
    this->template emplace<T>(std::forward<T>(value));
}

template class OneOf<CarCommand::Variant>;
template class OneOf<CarEvent::Variant>;
template class OneOf<SiteCommand::Variant>;
template class OneOf<SiteEvent::Variant>;

// What has its address taken is made here: a pack cannot be instantiated by name.
template <class V>
struct Holders;
template <class... Kinds>
struct Holders<std::variant<Kinds...>>
{
    std::tuple<void (OneOf<std::variant<Kinds...>>::*)(Kinds&&)...> all = {
        &OneOf<std::variant<Kinds...>>::template hold<Kinds>...};
};
extern const Holders<CarCommand::Variant> carCommandHolders;
extern const Holders<CarEvent::Variant> carEventHolders;
extern const Holders<SiteCommand::Variant> siteCommandHolders;
extern const Holders<SiteEvent::Variant> siteEventHolders;
const Holders<CarCommand::Variant> carCommandHolders;
const Holders<CarEvent::Variant> carEventHolders;
const Holders<SiteCommand::Variant> siteCommandHolders;
const Holders<SiteEvent::Variant> siteEventHolders;

} // namespace ramplight
