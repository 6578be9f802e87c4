"""Wrong passwords close the door for a while; signing in makes a new session."""

import pytest
from django.urls import reverse

from tests.factories import PASSWORD, make_user

pytestmark = pytest.mark.django_db


@pytest.fixture
def throttled(settings):
    """The throttle as the site runs it."""
    settings.AXES_ENABLED = True


def sign_in(client, user, password):
    return client.post(reverse("login"), {"username": user.username, "password": password})


def test_five_wrong_passwords_close_that_name_for_that_address(client, company, throttled):
    ann, ben = make_user(company), make_user(company)
    for _ in range(4):
        assert sign_in(client, ann, "wrong").status_code == 200
    assert sign_in(client, ann, "wrong").status_code == 429
    answer = sign_in(client, ann, PASSWORD)
    assert answer.status_code == 429
    assert "half an hour" in answer.content.decode()
    assert sign_in(client, ben, PASSWORD).status_code == 302


def test_the_right_password_counts_from_zero_again(client, company, throttled):
    ann = make_user(company)
    for _ in range(4):
        sign_in(client, ann, "wrong")
    assert sign_in(client, ann, PASSWORD).status_code == 302
    client.logout()
    for _ in range(4):
        assert sign_in(client, ann, "wrong").status_code == 200


def test_a_new_session_on_sign_in_and_none_after_sign_out(client, company):
    ann = make_user(company)
    client.get(reverse("login"))
    client.session["kept"] = "from before"
    before = client.session.session_key
    sign_in(client, ann, PASSWORD)
    during = client.session.session_key
    assert during != before
    client.post(reverse("logout"))
    client.cookies["sessionid"] = during
    assert client.get(reverse("projects:jurisdictions")).status_code == 302


def test_a_switched_off_person_is_out_at_once(client, company):
    ann = make_user(company)
    client.force_login(ann)
    assert client.get(reverse("projects:jurisdictions")).status_code == 200
    ann.is_active = False
    ann.save()
    assert client.get(reverse("projects:jurisdictions")).status_code == 302


def test_a_strange_next_address_is_not_followed(client, company):
    ann = make_user(company)
    answer = client.post(
        reverse("login"),
        {"username": ann.username, "password": PASSWORD, "next": "https://elsewhere.example/"},
    )
    assert answer.headers["Location"] == "/"


def test_forms_need_their_token(company):
    from django.test import Client

    ann = make_user(company)
    strict = Client(enforce_csrf_checks=True)
    strict.force_login(ann)
    assert strict.post(reverse("projects:jurisdiction_new"), {}).status_code == 403
