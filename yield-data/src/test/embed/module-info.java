module consumer {
    requires org.beefyield.data;
}
